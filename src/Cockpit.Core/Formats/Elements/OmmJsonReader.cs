using System.Globalization;
using System.Text;
using System.Text.Json;

namespace Cockpit.Core.Formats.Elements;

/// <summary>OMM as JSON objects, one alone or many in a list; each object is read by itself, so a bad one spoils no other.</summary>
/// <param name="into">Where sets and mistakes go.</param>
/// <remarks>The flat form of public catalogues: keywords of CCSDS 502.0-B-3 as names; values may be numbers or strings (RFC 8259).</remarks>
internal sealed class OmmJsonReader(ElementGathering into)
{
    private const int LongestObject = 65536;
    private static readonly JsonReaderOptions Options = new() { MaxDepth = 8 };
    private readonly StringBuilder _object = new();

    /// <summary>Reads from an opening bracket or brace to the one that closes it.</summary>
    internal void Read(InputReader text)
    {
        if (text.Peek() == '{')
        {
            ReadObject(text);
            return;
        }

        text.Read();
        while (true)
        {
            text.SkipBlank();
            switch (text.Peek())
            {
                case ']':
                    text.Read();
                    return;
                case ',':
                    text.Read();
                    break;
                case '{' when ReadObject(text):
                    break;
                case '{':
                    return;
                case -1:
                    ComplainAboutEnd(text, "the list is not closed by ']'");
                    return;
                default:
                    into.Complain(text.Line, text.Column, $"{Quoted.Of([(char)text.Peek()])} stands where an element set in braces is expected");
                    SkipToObject(text);
                    break;
            }
        }
    }

    /// <returns>False where the input ended inside the object.</returns>
    private bool ReadObject(InputReader text)
    {
        (int line, int column) = (text.Line, text.Column);
        _object.Clear();
        int depth = 0;
        bool quoted = false;
        bool tooLong = false;
        do
        {
            int c = text.Read();
            if (c < 0)
            {
                ComplainAboutEnd(text, string.Create(CultureInfo.InvariantCulture, $"the object that begins in line {line} is not closed by '}}'"));
                return false;
            }

            tooLong = tooLong || _object.Length >= LongestObject;
            if (!tooLong)
            {
                _object.Append((char)c);
            }

            if (quoted && c == '\\' && text.Peek() is >= ' ' and var escaped)
            {
                text.Read();
                _object.Append((char)escaped);
            }
            else if (c == '"')
            {
                quoted = !quoted;
            }
            else if (c == '\n')
            {
                // A string ends with its line at the latest; so a lost quote spoils one object only.
                quoted = false;
            }
            else if (!quoted)
            {
                depth += c == '{' ? 1 : c == '}' ? -1 : 0;
            }
        }
        while (depth > 0);

        if (tooLong)
        {
            into.Complain(line, column, string.Create(CultureInfo.InvariantCulture, $"an object of more than {LongestObject} characters; expected one flat object an element set"));
            return true;
        }

        ReadFields(_object.ToString(), line, column);
        return true;
    }

    private void ReadFields(string text, int line, int column)
    {
        byte[] bytes = Encoding.UTF8.GetBytes(text);
        var place = new BytePlace(bytes, line, column);
        var record = new OmmRecord(line, column);
        var json = new Utf8JsonReader(bytes, Options);
        try
        {
            string keyword = "";
            while (json.Read())
            {
                place.MoveTo((int)json.TokenStartIndex);
                if (json.TokenType == JsonTokenType.PropertyName)
                {
                    keyword = json.GetString()!;
                }
                else if (json.TokenType is JsonTokenType.String or JsonTokenType.Number)
                {
                    string value = json.TokenType == JsonTokenType.String ? json.GetString()! : Encoding.UTF8.GetString(json.ValueSpan);
                    record.Add(keyword, new OmmValue(value.Trim(), null, place.Line, place.Column));
                }
            }
        }
        catch (Exception trouble) when (trouble is JsonException or InvalidOperationException)
        {
            // InvalidOperationException: a string that is no UTF-16 after its escapes are resolved.
            place.MoveTo((int)Math.Min(json.BytesConsumed, bytes.Length));
            into.Complain(place.Line, place.Column, $"no valid JSON, found {Quoted.Of(Encoding.UTF8.GetString(bytes.AsSpan(place.Offset)))}; get the element set again");
            return;
        }

        OmmElements.Read(record, into);
    }

    private void ComplainAboutEnd(InputReader text, string what)
    {
        if (!text.Stopped)
        {
            into.Complain(text.Line, text.Column, $"{what}: the input was cut off, get it again");
        }
    }

    private static void SkipToObject(InputReader text)
    {
        while (text.Peek() is >= 0 and not ('{' or ']'))
        {
            text.Read();
        }
    }

    /// <summary>Line and column of a byte, counted on from the last one asked for.</summary>
    private struct BytePlace(byte[] bytes, int line, int column)
    {
        internal int Offset { get; private set; }

        internal int Line { get; private set; } = line;

        internal int Column { get; private set; } = column;

        internal void MoveTo(int offset)
        {
            for (; Offset < offset; Offset++)
            {
                bool lineEnd = bytes[Offset] == '\n';
                bool within = (bytes[Offset] & 0xC0) == 0x80;
                Line += lineEnd ? 1 : 0;
                Column = lineEnd ? 1 : within ? Column : Column + 1;
            }
        }
    }
}
