using System.Globalization;

namespace Cockpit.Tests;

/// <summary>The published values in tests/data/reference; each folder's README names their sources and tolerances.</summary>
public static class ReferenceFiles
{
    public static string Folder { get; } = Path.Combine(AppContext.BaseDirectory, "data", "reference");

    public static string PathOf(string relative) => Path.Combine(Folder, relative);

    public static string Text(string relative) => File.ReadAllText(PathOf(relative));

    /// <summary>Rows of a CSV file without comment lines: one dictionary a row, by the names of the header.</summary>
    public static IReadOnlyList<CsvRow> Csv(string relative)
    {
        string[] lines = [.. File.ReadLines(PathOf(relative)).Where(line => line.Length > 0 && line[0] != '#')];
        string[] names = lines[0].Split(',');
        return [.. lines.Skip(1).Select(line => new CsvRow(names, line.Split(',')))];
    }
}

public sealed class CsvRow(string[] names, string[] cells)
{
    public string Text(string name) => cells[Array.IndexOf(names, name)];

    public double Number(string name) => double.Parse(Text(name), CultureInfo.InvariantCulture);

    public DateTimeOffset Utc(string name) => DateTimeOffset.Parse(
        Text(name), CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal | DateTimeStyles.AdjustToUniversal);
}
