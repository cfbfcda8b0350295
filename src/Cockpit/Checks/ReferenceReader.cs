using System.Collections.Immutable;
using System.Globalization;
using System.Text;

namespace Cockpit.Checks;

/// <summary>One row of a reference table, by the names of its columns.</summary>
/// <param name="Columns">Name to position.</param>
/// <param name="Cells">The cells of the row.</param>
public sealed record ReferenceRow(ImmutableDictionary<string, int> Columns, ImmutableArray<string> Cells)
{
    /// <summary>Text of a cell.</summary>
    /// <param name="column">Name of the column.</param>
    /// <exception cref="FormatException">There is no such column, or the row is too short.</exception>
    public string Text(string column) =>
        Columns.TryGetValue(column, out int at) && at < Cells.Length
            ? Cells[at]
            : throw new FormatException($"the table has no value in column '{column}'");

    /// <summary>Number in a cell, invariant culture.</summary>
    /// <param name="column">Name of the column.</param>
    /// <exception cref="FormatException">There is no number.</exception>
    public double Number(string column) => double.Parse(Text(column), NumberStyles.Float, CultureInfo.InvariantCulture);
}

/// <summary>Reads the comma-separated reference tables: '#' lines are comments, then a header, then rows; quotes as in RFC 4180.</summary>
public static class ReferenceReader
{
    /// <summary>The rows of a table.</summary>
    /// <param name="csv">Text of the file.</param>
    public static ImmutableArray<ReferenceRow> Rows(string csv)
    {
        ArgumentNullException.ThrowIfNull(csv);
        var rows = ImmutableArray.CreateBuilder<ReferenceRow>();
        ImmutableDictionary<string, int>? columns = null;
        foreach (string raw in csv.Split('\n'))
        {
            string line = raw.TrimEnd('\r');
            if (line.Length == 0 || line[0] == '#')
            {
                continue;
            }

            ImmutableArray<string> cells = Cells(line);
            if (columns is null)
            {
                columns = cells.Select((name, at) => (name, at)).ToImmutableDictionary(pair => pair.name, pair => pair.at, StringComparer.Ordinal);
                continue;
            }

            rows.Add(new ReferenceRow(columns, cells));
        }

        return rows.ToImmutable();
    }

    private static ImmutableArray<string> Cells(string line)
    {
        var cells = ImmutableArray.CreateBuilder<string>();
        var cell = new StringBuilder();
        bool quoted = false;
        for (int i = 0; i < line.Length; i++)
        {
            char c = line[i];
            if (c == '"' && quoted && i + 1 < line.Length && line[i + 1] == '"')
            {
                cell.Append('"');
                i++;
            }
            else if (c == '"')
            {
                quoted = !quoted;
            }
            else if (c == ',' && !quoted)
            {
                cells.Add(cell.ToString());
                cell.Clear();
            }
            else
            {
                cell.Append(c);
            }
        }

        cells.Add(cell.ToString());
        return cells.ToImmutable();
    }
}
