using System.Buffers;
using System.Globalization;
using System.Text.Json;

namespace Cockpit.Commands;

/// <summary>One column of what a command prints.</summary>
/// <param name="Name">Its name in CSV and JSON.</param>
/// <param name="Heading">Its name in a table for people; null = not in the table.</param>
/// <param name="Width">Its width there; negative = text stands on the left.</param>
/// <param name="InCsv">Whether CSV has it.</param>
public sealed record OutputColumn(string Name, string? Heading, int Width, bool InCsv = true);

/// <summary>One value to print.</summary>
/// <param name="Text">As it is printed; null where there is none.</param>
/// <param name="IsNumber">Whether JSON writes it without quotes.</param>
/// <param name="Brief">What a table for people shows instead; null = the same.</param>
public readonly record struct Cell(string? Text, bool IsNumber, string? Brief = null)
{
    /// <summary>Nothing.</summary>
    public static Cell None => default;

    /// <summary>A text.</summary>
    public static Cell Of(string? text, string? shorter = null) => new(text, false, shorter);

    /// <summary>A number with so many decimals, and fewer in a table for people.</summary>
    public static Cell Of(double? number, int decimals, int? tableDecimals = null) => number is { } value
        ? new Cell(Fixed(value, decimals), true, tableDecimals is { } few ? Fixed(value, few) : null)
        : None;

    /// <summary>A whole number.</summary>
    public static Cell Of(int? number) => new(number?.ToString(CultureInfo.InvariantCulture), true);

    /// <summary>Yes or no.</summary>
    public static Cell Of(bool value) => new(value ? "true" : "false", true, value ? "yes" : "no");

    /// <summary>An instant of UTC with so many decimals of a second (rounded), and whole seconds in a table.</summary>
    public static Cell Of(DateTimeOffset utc, int decimals)
    {
        long unit = (long)Math.Pow(10, 7 - decimals);
        DateTimeOffset rounded = new(((utc.UtcTicks + (unit / 2)) / unit) * unit, TimeSpan.Zero);
        DateTimeOffset second = new(((utc.UtcTicks + (TimeSpan.TicksPerSecond / 2)) / TimeSpan.TicksPerSecond) * TimeSpan.TicksPerSecond, TimeSpan.Zero);
        return new Cell(
            rounded.ToString("yyyy-MM-dd'T'HH:mm:ss." + new string('f', decimals) + "'Z'", CultureInfo.InvariantCulture),
            false,
            second.ToString("yyyy-MM-dd HH:mm:ss", CultureInfo.InvariantCulture));
    }

    private static string Fixed(double value, int decimals)
    {
        string text = value.ToString("F" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
        return text.AsSpan().IndexOfAnyInRange('1', '9') < 0 ? text.TrimStart('-') : text;
    }
}

/// <summary>Prints rows as a table for people, as CSV (RFC 4180) or as a JSON array, each row when it comes.</summary>
/// <param name="output">Where to.</param>
/// <param name="format">How.</param>
/// <param name="columns">What each row holds, in order.</param>
public sealed class OutputRows(TextWriter output, OutputFormat format, IReadOnlyList<OutputColumn> columns)
{
    /// <summary>A text that begins so is a formula to a spreadsheet; an apostrophe before it keeps it a text.</summary>
    /// <remarks>Source: OWASP, "CSV Injection".</remarks>
    private static readonly SearchValues<char> FormulaStarts = SearchValues.Create("=+-@\t\r");

    private int _rows;

    /// <summary>Begins: the header line, or the opening bracket.</summary>
    public void Begin()
    {
        switch (format)
        {
            case OutputFormat.Csv:
                output.Write(string.Join(',', columns.Where(c => c.InCsv).Select(c => c.Name)));
                output.Write('\n');
                break;
            case OutputFormat.Json:
                output.Write('[');
                break;
            default:
                WriteTableLine(column => Cell.Of(column.Heading));
                break;
        }
    }

    /// <summary>One row; as many cells as there are columns.</summary>
    public void Add(params ReadOnlySpan<Cell> cells)
    {
        Cell[] row = cells.ToArray();
        switch (format)
        {
            case OutputFormat.Csv:
                output.Write(string.Join(',', columns.Zip(row).Where(pair => pair.First.InCsv).Select(pair => CsvText(pair.Second))));
                output.Write('\n');
                break;
            case OutputFormat.Json:
                output.Write(_rows == 0 ? "\n  {" : ",\n  {");
                output.Write(string.Join(", ", columns.Zip(row).Select(pair => $"\"{pair.First.Name}\": {JsonText(pair.Second)}")));
                output.Write('}');
                break;
            default:
                int at = 0;
                WriteTableLine(_ => row[at++]);
                break;
        }

        _rows++;
    }

    /// <summary>A sentence below the last row, in a table for people only; broken to eighty columns.</summary>
    /// <param name="text">The sentence.</param>
    public void Note(string text)
    {
        const int Width = 80;
        const string Indent = "    ";
        if (format != OutputFormat.Table)
        {
            return;
        }

        string line = Indent;
        foreach (string word in text.Split(' '))
        {
            if (line.Length > Indent.Length && line.Length + word.Length > Width)
            {
                output.Write(line.TrimEnd() + "\n");
                line = Indent;
            }

            line += word + " ";
        }

        output.Write(line.TrimEnd() + "\n");
    }

    /// <summary>One object by itself: a header line and a line of CSV, or a JSON object without a list around it.</summary>
    /// <param name="cells">As many as there are columns.</param>
    public void Alone(params ReadOnlySpan<Cell> cells)
    {
        if (format != OutputFormat.Json)
        {
            Begin();
            Add(cells);
            return;
        }

        Cell[] row = cells.ToArray();
        output.Write("{\n  " + string.Join(",\n  ", columns.Zip(row).Select(pair => $"\"{pair.First.Name}\": {JsonText(pair.Second)}")) + "\n}\n");
    }

    /// <summary>Ends: the closing bracket.</summary>
    public void End()
    {
        if (format == OutputFormat.Json)
        {
            output.Write(_rows == 0 ? "]\n" : "\n]\n");
        }
    }

    private static string CsvText(Cell cell)
    {
        string text = cell.Text ?? "";
        if (!cell.IsNumber && text.AsSpan().IndexOfAny(FormulaStarts) == 0)
        {
            text = "'" + text;
        }

        return text.AsSpan().IndexOfAny(",\"\r\n") < 0 ? text : "\"" + text.Replace("\"", "\"\"", StringComparison.Ordinal) + "\"";
    }

    private static string JsonText(Cell cell) => cell.Text is null ? "null" : cell.IsNumber ? cell.Text : $"\"{JsonEncodedText.Encode(cell.Text)}\"";

    private void WriteTableLine(Func<OutputColumn, Cell> cellOf)
    {
        var parts = new List<string>();
        foreach (OutputColumn column in columns)
        {
            Cell cell = cellOf(column);
            if (column.Heading is not null)
            {
                string text = cell.Brief ?? cell.Text ?? "-";
                parts.Add(column.Width < 0 ? text.PadRight(-column.Width) : text.PadLeft(column.Width));
            }
        }

        output.Write(string.Join("  ", parts).TrimEnd());
        output.Write('\n');
    }
}
