using System.Globalization;
using Cockpit.Core.Time;

namespace Cockpit.Core.Formats.Elements;

/// <summary>Reads a time in the ASCII codes A (month and day) and B (day of the year), every digit kept.</summary>
/// <remarks>Source: CCSDS 301.0-B-4, Time Code Formats, section 3.5; a zone other than Z is not part of it.</remarks>
internal static class CcsdsTime
{
    private const int MostDigits = 18;

    /// <summary>The moment, or null when the text is no such time; a leap second (60) counts as the second after.</summary>
    internal static JulianDate? Read(ReadOnlySpan<char> text)
    {
        text = text.TrimEnd('Z');
        int split = text.IndexOfAny('T', ' ');
        if (split < 8 || Midnight(text[..split]) is not { } day)
        {
            return null;
        }

        ReadOnlySpan<char> time = text[(split + 1)..];
        bool shape = time.Length >= 8 && time[2] == ':' && time[5] == ':' && (time.Length == 8 || (time[8] == '.' && time.Length <= 9 + MostDigits));
        if (!shape || Digits(time[..2]) is not { } hour || Digits(time[3..5]) is not { } minute || Digits(time[6..8]) is not { } second
            || hour > 23 || minute > 59 || second > 60 || (time.Length > 8 && time[9..].ContainsAnyExceptInRange('0', '9')))
        {
            return null;
        }

        // A decimal holds the second exactly, so the one rounding is that of the division.
        decimal seconds = (3600 * hour) + (60 * minute) + decimal.Parse(time[6..], NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture);
        return new JulianDate(day.Day, (double)(seconds / 86400m));
    }

    private static JulianDate? Midnight(ReadOnlySpan<char> date)
    {
        if (date.Length is not (8 or 10) || date[4] != '-' || Digits(date[..4]) is not { } year || year is < 1957 or > 2199)
        {
            return null;
        }

        int yearLength = DateTime.IsLeapYear(year) ? 366 : 365;
        if (date.Length == 8)
        {
            return Digits(date[5..]) is { } dayOfYear && dayOfYear >= 1 && dayOfYear <= yearLength ? Start(year, 1, dayOfYear) : null;
        }

        return date[7] == '-' && Digits(date[5..7]) is { } month && Digits(date[8..]) is { } day
            && month is >= 1 and <= 12 && day >= 1 && day <= DateTime.DaysInMonth(year, month)
            ? Start(year, month, day) : null;
    }

    private static JulianDate Start(int year, int month, int day) =>
        JulianDate.FromUtc(new DateTimeOffset(year, month, 1, 0, 0, 0, TimeSpan.Zero).AddDays(day - 1));

    private static int? Digits(ReadOnlySpan<char> text) =>
        int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out int value) ? value : null;
}
