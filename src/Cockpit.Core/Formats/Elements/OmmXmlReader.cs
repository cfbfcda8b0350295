using System.Globalization;
using System.Text;
using System.Xml;

namespace Cockpit.Core.Formats.Elements;

/// <summary>OMM as XML: one omm element, or many in an ndm; each is read by itself, so a bad one spoils no other.</summary>
/// <param name="into">Where sets and mistakes go.</param>
/// <remarks>
/// Shape: CCSDS 505.0-B, XML Specification for Navigation Data Messages. Document types are refused before any parser sees
/// them, entities other than the five of XML are unknown, and one omm may have 65536 characters.
/// </remarks>
internal sealed class OmmXmlReader(ElementGathering into)
{
    private const int LongestMessage = 65536;
    private const int LongestComment = 256;
    private const string CommentStart = "<!--";
    private readonly StringBuilder _markup = new();

    /// <summary>Reads from the first tag to the end of the outermost element.</summary>
    /// <returns>False where the rest of the input cannot be used.</returns>
    internal bool Read(InputReader text)
    {
        bool inList = false;
        while (true)
        {
            SkipToTag(text);
            (int line, int column) = (text.Line, text.Column);
            if (ReadTag(text) is not { } name)
            {
                ComplainAboutEnd(text, line, column);
                return false;
            }

            switch (name)
            {
                case "!DOCTYPE":
                    into.Complain(line, column, "a document type (DOCTYPE) is not accepted; remove it");
                    return false;
                case "ndm":
                    inList = true;
                    break;
                case "/ndm":
                    return true;
                case "omm":
                    if (!ReadMessage(text, line, column))
                    {
                        return false;
                    }

                    if (!inList)
                    {
                        return true;
                    }

                    break;
                case "!--" or "MESSAGE_ID" or "/MESSAGE_ID" or "COMMENT" or "/COMMENT":
                    break;
                case var instruction when instruction.StartsWith('?'):
                    break;
                default:
                    into.Complain(line, column, $"<{name}> found; expected an OMM in XML (<omm>, or several in <ndm>)");
                    return false;
            }
        }
    }

    private static void SkipToTag(InputReader text)
    {
        while (text.Peek() is >= 0 and not '<')
        {
            text.Read();
        }
    }

    /// <summary>Takes one tag into the markup; its name without a prefix, null where the input ends in it. Of a comment only both ends are kept.</summary>
    private string? ReadTag(InputReader text)
    {
        _markup.Clear();
        bool comment = false;
        for (int c = text.Read(); c >= 0 && _markup.Length < LongestMessage; c = text.Read())
        {
            _markup.Append((char)c);
            comment = comment || (_markup.Length == CommentStart.Length && StartsWith(CommentStart));
            if (c == '>' && (!comment || EndsWith("-->")))
            {
                return NameOf(_markup.ToString());
            }

            if (comment && _markup.Length > LongestComment)
            {
                _markup.Remove(CommentStart.Length, _markup.Length - CommentStart.Length - 2);
            }
        }

        return null;
    }

    private static string NameOf(string tag)
    {
        if (tag.StartsWith(CommentStart, StringComparison.Ordinal))
        {
            return "!--";
        }

        int end = tag.AsSpan(1).IndexOfAny(" \t\n>");
        string name = tag.Substring(1, end);
        name = name.Length > 1 ? name.TrimEnd('/') : name;
        int colon = name.IndexOf(':', StringComparison.Ordinal);
        return (name.StartsWith('/') ? "/" : "") + name[(colon + 1)..].TrimStart('/');
    }

    /// <summary>Takes the rest of a message whose opening tag is in the markup, then reads it.</summary>
    private bool ReadMessage(InputReader text, int line, int column)
    {
        bool closed = EndsWith("/>");
        while (!closed)
        {
            int c = text.Read();
            if (c < 0)
            {
                ComplainAboutEnd(text, line, column);
                return false;
            }

            if (_markup.Length >= LongestMessage)
            {
                into.Complain(line, column, string.Create(CultureInfo.InvariantCulture, $"an <omm> of more than {LongestMessage} characters; expected one message an element set"));
                return false;
            }

            _markup.Append((char)c);
            closed = c == '>' && (EndsWith("</omm>") || EndsWith(":omm>"));
        }

        ReadFields(_markup.ToString(), line, column);
        return true;
    }

    private void ReadFields(string markup, int line, int column)
    {
        var record = new OmmRecord(line, column);
        using var xml = new XmlTextReader(new StringReader(markup))
        {
            DtdProcessing = DtdProcessing.Prohibit,
            EntityHandling = EntityHandling.ExpandEntities,
            XmlResolver = null,

            // Prefixes are declared further out, where this reader does not look.
            Namespaces = false,
            WhitespaceHandling = WhitespaceHandling.None,
        };
        try
        {
            string keyword = "";
            string? unit = null;
            while (xml.Read())
            {
                OmmValue Here(string value) => new(
                    value, unit, line + xml.LineNumber - 1, xml.LineNumber == 1 ? column + xml.LinePosition - 1 : xml.LinePosition);
                switch (xml.NodeType)
                {
                    case XmlNodeType.Element:
                        unit = xml.GetAttribute("units");
                        keyword = xml.Name[(xml.Name.IndexOf(':', StringComparison.Ordinal) + 1)..];
                        if (keyword.Equals("omm", StringComparison.Ordinal) && xml.GetAttribute("version") is { } version)
                        {
                            record.Add(OmmKeyword.Version, Here(version));
                        }

                        break;
                    case XmlNodeType.Text or XmlNodeType.CDATA:
                        record.Add(keyword, Here(xml.Value.Trim()));
                        break;
                    case XmlNodeType.EndElement:
                        keyword = "";
                        break;
                    default:
                        break;
                }
            }
        }
        catch (XmlException trouble)
        {
            into.Complain(
                line + Math.Max(trouble.LineNumber - 1, 0),
                trouble.LineNumber <= 1 ? column + Math.Max(trouble.LinePosition - 1, 0) : trouble.LinePosition,
                "no valid XML in this <omm>; get the element set again");
            return;
        }

        OmmElements.Read(record, into);
    }

    private void ComplainAboutEnd(InputReader text, int line, int column)
    {
        if (!text.Stopped)
        {
            into.Complain(line, column, "XML that begins here is not closed: the input was cut off, get it again");
        }
    }

    private bool StartsWith(string what) => _markup.Length >= what.Length && _markup.ToString(0, what.Length).Equals(what, StringComparison.Ordinal);

    private bool EndsWith(string what) =>
        _markup.Length >= what.Length && _markup.ToString(_markup.Length - what.Length, what.Length).Equals(what, StringComparison.Ordinal);
}
