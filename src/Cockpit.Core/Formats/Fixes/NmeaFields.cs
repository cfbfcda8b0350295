using System.Buffers;
using System.Buffers.Text;
using Cockpit.Core.Units;

namespace Cockpit.Core.Formats.Fixes;

/// <summary>Reads the fields of sentences: angles, instants, numbers. Empty or out of range is null.</summary>
internal static class NmeaFields
{
    private const int FirstYearOfLastCentury = 80;

    private static readonly SearchValues<byte> InNumbers = SearchValues.Create("+-.0123456789"u8);

    /// <summary>A latitude <c>ddmm.m</c> with N or S.</summary>
    public static Angle? Latitude(ReadOnlySpan<byte> text, ReadOnlySpan<byte> side) => Angle(text, side, degreeDigits: 2, most: 90, (byte)'N', (byte)'S');

    /// <summary>A longitude <c>dddmm.m</c> with E or W.</summary>
    public static Angle? Longitude(ReadOnlySpan<byte> text, ReadOnlySpan<byte> side) => Angle(text, side, degreeDigits: 3, most: 180, (byte)'E', (byte)'W');

    /// <summary>A time of day <c>hhmmss[.s]</c>; a leap second is the first of the next minute.</summary>
    public static TimeSpan? TimeOfDay(ReadOnlySpan<byte> text)
    {
        if (Digits(text, 0, 2) is not (>= 0 and <= 23 and int hours) || Digits(text, 2, 2) is not (>= 0 and <= 59 and int minutes) || Number(text[Math.Min(4, text.Length)..]) is not (>= 0 and < 61 and double seconds))
        {
            return null;
        }

        return new TimeSpan(hours, minutes, 0) + TimeSpan.FromTicks((long)Math.Round(seconds * 1e6) * 10);
    }

    /// <summary>A day <c>ddmmyy</c>; years from 80 on are of the last century.</summary>
    public static DateTimeOffset? Day(ReadOnlySpan<byte> text) =>
        text.Length == 6 && Digits(text, 4, 2) is { } year ? Day(Digits(text, 0, 2), Digits(text, 2, 2), year + (year >= FirstYearOfLastCentury ? 1900 : 2000)) : null;

    /// <summary>A day by its numbers.</summary>
    public static DateTimeOffset? Day(int? day, int? month, int? year) =>
        year is >= 1980 and <= 2199 and int y && month is >= 1 and <= 12 and int m && day is >= 1 and int d && d <= DateTime.DaysInMonth(y, m)
            ? new DateTimeOffset(y, m, d, 0, 0, 0, TimeSpan.Zero)
            : null;

    /// <summary>A whole number that fills the field.</summary>
    public static int? Whole(ReadOnlySpan<byte> text) => text.Length is > 0 and <= 9 ? Digits(text, 0, text.Length) : null;

    /// <summary>A finite number that fills the field, without exponent.</summary>
    public static double? Number(ReadOnlySpan<byte> text) =>
        !text.IsEmpty && text.IndexOfAnyExcept(InNumbers) < 0 && Utf8Parser.TryParse(text, out double number, out int used) && used == text.Length && double.IsFinite(number)
            ? number
            : null;

    private static Angle? Angle(ReadOnlySpan<byte> text, ReadOnlySpan<byte> side, int degreeDigits, double most, byte positive, byte negative)
    {
        // Two digits of whole minutes, always: else a missing zero in front would shift degrees into minutes.
        if (Digits(text, 0, degreeDigits) is not { } degrees || Digits(text, degreeDigits, 2) is null || (text.Length > degreeDigits + 2 && text[degreeDigits + 2] != (byte)'.')
            || Number(text[degreeDigits..]) is not (>= 0 and < 60 and double minutes)
            || side.Length != 1 || (side[0] != positive && side[0] != negative))
        {
            return null;
        }

        double angle = degrees + (minutes / 60.0);
        return angle > most ? null : Units.Angle.FromDegrees(side[0] == positive ? angle : -angle);
    }

    private static int? Digits(ReadOnlySpan<byte> text, int at, int count)
    {
        if (text.Length < at + count)
        {
            return null;
        }

        int value = 0;
        foreach (byte next in text.Slice(at, count))
        {
            if (next is < (byte)'0' or > (byte)'9')
            {
                return null;
            }

            value = (10 * value) + (next - '0');
        }

        return value;
    }
}
