using System.Collections.Immutable;

namespace Cockpit.Exports;

/// <summary>What kind of value a column holds.</summary>
public enum ExportKind
{
    /// <summary>A number.</summary>
    Number = 0,

    /// <summary>A whole number.</summary>
    Whole = 1,

    /// <summary>Yes or no.</summary>
    Truth = 2,

    /// <summary>One of a few words.</summary>
    Text = 3,

    /// <summary>An instant, UTC.</summary>
    Instant = 4,
}

/// <summary>A column of a table for other programs.</summary>
/// <param name="Name">Its name; the unit is part of it.</param>
/// <param name="Unit">The unit in words that programs know: <c>deg</c>, <c>dB</c>; empty where there is none.</param>
/// <param name="Kind">What it holds; every value may be missing.</param>
/// <param name="What">What it is, for people.</param>
public sealed record ExportColumn(string Name, string Unit, ExportKind Kind, string What);

/// <summary>One value; the column says which of its parts counts.</summary>
/// <param name="IsKnown">False where there is none.</param>
/// <param name="Number">A number, or 0.</param>
/// <param name="Whole">A whole number, yes as 1, or the ticks of UTC since the year 1.</param>
/// <param name="Text">A word, or null.</param>
public readonly record struct ExportValue(bool IsKnown, double Number, long Whole, string? Text)
{
    /// <summary>A number with so many decimals; what is no number is missing.</summary>
    public static ExportValue Of(double? number, int decimals) =>
        number is { } value && double.IsFinite(value) ? new ExportValue(true, Math.Round(value, decimals), 0, null) : default;

    /// <summary>A whole number.</summary>
    public static ExportValue Of(long? number) => number is { } value ? new ExportValue(true, 0.0, value, null) : default;

    /// <summary>Yes or no.</summary>
    public static ExportValue Of(bool? truth) => truth is { } value ? new ExportValue(true, 0.0, value ? 1 : 0, null) : default;

    /// <summary>A word.</summary>
    public static ExportValue Of(string? text) => text is null ? default : new ExportValue(true, 0.0, 0, text);

    /// <summary>An instant, to the microsecond.</summary>
    public static ExportValue Of(DateTimeOffset utc) => new(true, 0.0, utc.UtcTicks / TimeSpan.TicksPerMicrosecond * TimeSpan.TicksPerMicrosecond, null);

    /// <summary>The instant that it is.</summary>
    public DateTime Utc => new(Whole, DateTimeKind.Utc);
}

/// <summary>A table for other programs.</summary>
/// <param name="About">What it is about: keys and values, for those forms of file that have room for it.</param>
/// <param name="Columns">What each row holds.</param>
/// <param name="Rows">The rows, made while they are gone through; each as long as the columns.</param>
public sealed record ExportTable(ImmutableArray<KeyValuePair<string, string>> About, ImmutableArray<ExportColumn> Columns, IEnumerable<ExportValue[]> Rows);
