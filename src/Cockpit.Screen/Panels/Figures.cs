using System.Globalization;

namespace Cockpit.Screen.Panels;

/// <summary>Numbers of fixed width: a missing one keeps its place as dashes.</summary>
internal static class Figures
{
    /// <summary>A number right-aligned in a width, with some decimals; "--.-" when missing.</summary>
    public static string Of(double? value, int width, int decimals, bool signed = false)
    {
        if (value is not { } number)
        {
            string dashes = decimals == 0 ? "--" : "--." + new string('-', decimals);
            return dashes.PadLeft(width);
        }

        string text = Math.Abs(number).ToString(decimals == 0 ? "0" : "0." + new string('0', decimals), CultureInfo.InvariantCulture);
        bool zero = text.AsSpan().IndexOfAnyInRange('1', '9') < 0;
        string sign = number < 0 && !zero ? "-" : signed ? "+" : "";
        return (sign + text).PadLeft(width);
    }

    /// <summary>An azimuth in three digits and one decimal, never 360.0; "---.-" when missing.</summary>
    public static string Azimuth(double? degrees)
    {
        if (degrees is not { } value)
        {
            return "---.-";
        }

        double rounded = Math.Round(value, 1, MidpointRounding.AwayFromZero);
        return (rounded >= 360.0 ? rounded - 360.0 : rounded).ToString("000.0", CultureInfo.InvariantCulture);
    }

    /// <summary>A span as mm:ss, or h:mm:ss from an hour on; always without sign.</summary>
    public static string Span(TimeSpan span)
    {
        TimeSpan size = span.Duration();
        return size.TotalHours >= 1.0
            ? string.Create(CultureInfo.InvariantCulture, $"{(int)size.TotalHours}:{size.Minutes:00}:{size.Seconds:00}")
            : string.Create(CultureInfo.InvariantCulture, $"{size.Minutes:00}:{size.Seconds:00}");
    }

    /// <summary>A countdown: a started second counts whole, so that 00:00 means now.</summary>
    public static string Countdown(TimeSpan left) => Span(left > TimeSpan.Zero ? TimeSpan.FromSeconds(Math.Ceiling(left.TotalSeconds)) : TimeSpan.Zero);

    /// <summary>The time of day, UTC.</summary>
    public static string Clock(DateTimeOffset utc) => utc.ToString("HH:mm:ss", CultureInfo.InvariantCulture);

    /// <summary>Text cut or filled to some columns; a cut shows.</summary>
    public static string Fit(string text, int width) =>
        CellColumns.Width(text) <= width || width <= 1 ? CellColumns.Cut(text, Math.Max(width, 0)) : CellColumns.Cut(text, width - 1) + "…";
}
