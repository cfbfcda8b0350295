using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json;

namespace Cockpit.Commands;

/// <summary>One named value of a printed record.</summary>
/// <param name="Name">Column of the CSV, name in the JSON.</param>
/// <param name="Text">The value as text, invariant; null when there is none.</param>
/// <param name="IsText">Whether JSON puts quotes around it.</param>
public readonly record struct Field(string Name, string? Text, bool IsText)
{
    /// <summary>A number with so many decimals.</summary>
    public static Field Of(string name, double? value, int decimals) =>
        new(name, value?.ToString("F" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture), IsText: false);

    /// <summary>A whole number.</summary>
    public static Field Of(string name, int? value) => new(name, value?.ToString(CultureInfo.InvariantCulture), IsText: false);

    /// <summary>Yes or no.</summary>
    public static Field Of(string name, bool value) => new(name, value ? "true" : "false", IsText: false);

    /// <summary>Words.</summary>
    public static Field Of(string name, string? value) => new(name, value, IsText: true);

    /// <summary>An instant, ISO 8601 with milliseconds.</summary>
    public static Field Of(string name, DateTimeOffset utc) =>
        new(name, utc.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss.fff'Z'", CultureInfo.InvariantCulture), IsText: true);
}

/// <summary>Prints records of named values as CSV (RFC 4180) or JSON.</summary>
public static class FlatRecord
{
    /// <summary>A header line and a line a record.</summary>
    /// <param name="output">Where to.</param>
    /// <param name="records">All with the same names in the same order.</param>
    public static void WriteCsv(TextWriter output, IReadOnlyList<ImmutableArray<Field>> records)
    {
        ArgumentNullException.ThrowIfNull(output);
        ArgumentNullException.ThrowIfNull(records);
        if (records.Count > 0)
        {
            output.WriteLine(string.Join(',', records[0].Select(field => field.Name)));
        }

        foreach (ImmutableArray<Field> record in records)
        {
            output.WriteLine(string.Join(',', record.Select(field => Quoted(field.Text ?? ""))));
        }
    }

    /// <summary>One JSON object.</summary>
    /// <param name="output">Where to.</param>
    /// <param name="record">Its values; null where there is none.</param>
    public static void WriteJson(TextWriter output, ImmutableArray<Field> record)
    {
        ArgumentNullException.ThrowIfNull(output);
        output.WriteLine("{");
        for (int i = 0; i < record.Length; i++)
        {
            Field field = record[i];
            string value = field.Text is not { } text ? "null" : field.IsText ? JsonSerializer.Serialize(text) : text;
            output.WriteLine($"  \"{field.Name}\": {value}{(i + 1 < record.Length ? "," : "")}");
        }

        output.WriteLine("}");
    }

    private static string Quoted(string text) =>
        text.AsSpan().ContainsAny(",\"\r\n") ? $"\"{text.Replace("\"", "\"\"", StringComparison.Ordinal)}\"" : text;
}
