using System.Globalization;
using System.Text;

namespace Cockpit.Core.Formats.Elements;

/// <summary>OMM keywords as the headings of a comma-separated table, a set a row.</summary>
/// <param name="into">Where sets and mistakes go.</param>
/// <remarks>Quotes as in RFC 4180, without line ends inside a cell.</remarks>
internal sealed class OmmTableReader(ElementGathering into)
{
    private string[]? _headings;
    private bool _useless;

    /// <summary>Whether the headings were read and rows are expected.</summary>
    internal bool IsOpen => _headings is not null;

    /// <summary>Whether a line holds headings: at least three known keywords.</summary>
    internal static bool IsHeadings(string line) =>
        line.Contains(',', StringComparison.Ordinal) && line.Split(',').Count(cell => OmmKeyword.Known.Contains(cell.Trim(" \"").ToString())) >= 3;

    /// <summary>Takes the line of headings.</summary>
    internal void Open(NumberedLine line)
    {
        _headings = [.. Cells(line).Select(cell => cell.Text)];
        string[] missing = [.. new[] { OmmKeyword.Epoch, OmmKeyword.MeanMotion }.Where(k => !_headings.Contains(k, StringComparer.Ordinal))];
        _useless = missing.Length > 0;
        if (_useless)
        {
            into.Complain(line.Number, line.Indent + 1, $"the table has no column {string.Join(", ", missing)}; get it again");
        }
    }

    /// <summary>Takes a row.</summary>
    internal void Take(NumberedLine line)
    {
        if (_useless)
        {
            return;
        }

        List<OmmValue> cells = Cells(line);
        if (cells.Count != _headings!.Length)
        {
            into.Complain(line.Number, line.Indent + 1, string.Create(CultureInfo.InvariantCulture, $"the row has {cells.Count} cells, the headings {_headings.Length}; get the table again"));
            return;
        }

        var record = new OmmRecord(line.Number, line.Indent + 1);
        for (int k = 0; k < cells.Count; k++)
        {
            record.Add(_headings[k], cells[k]);
        }

        OmmElements.Read(record, into);
    }

    /// <summary>No more rows follow.</summary>
    internal void Finish() => _headings = null;

    private static List<OmmValue> Cells(NumberedLine line)
    {
        var cells = new List<OmmValue>();
        var cell = new StringBuilder();
        bool quoted = false;
        int start = 0;
        for (int k = 0; k <= line.Text.Length; k++)
        {
            char c = k < line.Text.Length ? line.Text[k] : ',';
            if (c == ',' && (!quoted || k == line.Text.Length))
            {
                cells.Add(new OmmValue(cell.ToString().Trim(), null, line.Number, line.Indent + start + 1));
                cell.Clear();
                start = k + 1;
            }
            else if (c != '"')
            {
                cell.Append(c);
            }
            else if (quoted && k + 1 < line.Text.Length && line.Text[k + 1] == '"')
            {
                cell.Append('"');
                k++;
            }
            else
            {
                quoted = !quoted;
            }
        }

        return cells;
    }
}
