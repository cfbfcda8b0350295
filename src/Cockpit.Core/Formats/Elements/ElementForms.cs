using System.Globalization;

namespace Cockpit.Core.Formats.Elements;

/// <summary>Tells the forms apart, line by line, and hands each line or block to its reader.</summary>
/// <param name="how">How strictly TLE lines are read.</param>
/// <param name="into">Where sets and mistakes go.</param>
internal sealed class ElementForms(ElementReading how, ElementGathering into)
{
    private const int LongestLine = 4096;
    private readonly TleAssembler _tle = new(how, into);
    private readonly KvnReader _kvn = new(into);
    private readonly OmmTableReader _table = new(into);
    private readonly OmmJsonReader _json = new(into);
    private readonly OmmXmlReader _xml = new(into);

    /// <summary>Reads to the end, or to where the rest cannot be used.</summary>
    internal void Read(InputReader text)
    {
        bool going = true;
        while (going)
        {
            text.SkipBlank();
            switch (text.Peek())
            {
                case -1:
                    going = false;
                    break;
                case '<':
                    Finish();
                    going = _xml.Read(text);
                    break;
                case '[' or '{':
                    Finish();
                    _json.Read(text);
                    break;
                default:
                    TakeLine(text);
                    break;
            }
        }

        if (!text.Stopped)
        {
            Finish();
        }
    }

    private void TakeLine(InputReader text)
    {
        (int number, int indent) = (text.Line, text.Column - 1);
        var line = new NumberedLine(text.ReadLine(LongestLine, out bool cut), number, indent);
        if (line.Text[0] == '#' || text.Binary is not null)
        {
            return;
        }

        if (cut)
        {
            into.Complain(number, LongestLine + 1, string.Create(CultureInfo.InvariantCulture, $"the line is longer than {LongestLine} characters; expected TLE or OMM"));
        }
        else if (KvnReader.Is(line.Text) || (_kvn.IsOpen && line.Text.StartsWith("COMMENT", StringComparison.Ordinal)))
        {
            _tle.Finish();
            _table.Finish();
            _kvn.Take(line);
        }
        else if (OmmTableReader.IsHeadings(line.Text))
        {
            Finish();
            _table.Open(line);
        }
        else if (_table.IsOpen && line.Text.Contains(',', StringComparison.Ordinal) && !TleLine.Is(line.Text, '1') && !TleLine.Is(line.Text, '2'))
        {
            _table.Take(line);
        }
        else
        {
            _kvn.Finish();
            _table.Finish();
            _tle.Take(line);
        }
    }

    private void Finish()
    {
        _tle.Finish();
        _kvn.Finish();
        _table.Finish();
    }
}
