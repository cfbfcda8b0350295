using System.Buffers.Text;
using System.Globalization;

namespace Cockpit.Core.Formats;

/// <summary>Instants in text: ISO 8601 in its extended form, or seconds of Unix time; to the 100 ns.</summary>
/// <remarks>Sources: ISO 8601-1:2019 (extended format, four-digit years); POSIX.1-2017, 4.16, seconds since the epoch.</remarks>
public static class UtcText
{
    /// <summary>Seconds of Unix time at 2200-01-01, by the calendar rule of POSIX; later instants are typing errors here.</summary>
    private const decimal LatestUnixSeconds = 7258118400m;

    private const decimal TicksPerSecond = TimeSpan.TicksPerSecond;

    /// <summary>Reads an instant.</summary>
    /// <param name="text">
    /// <c>YYYY-MM-DDThh:mm[:ss[.f…]][Z|±hh[:mm]]</c> (UTC where no offset is given; <c>t</c> and <c>z</c> too), or seconds since 1970
    /// with an optional fraction; UTF-8. Digits beyond 100 ns are cut off.
    /// </param>
    /// <returns>The instant with offset zero, from 1970 to 2200; null when the text is not one.</returns>
    public static DateTimeOffset? Read(ReadOnlySpan<byte> text) => text.Length > 5 && text[4] == (byte)'-' ? ReadIso(text) : ReadUnix(text);

    /// <summary>Writes an instant as <c>YYYY-MM-DDThh:mm:ss.fffffffZ</c>, exact.</summary>
    public static string Format(DateTimeOffset instant) =>
        instant.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss.fffffff'Z'", CultureInfo.InvariantCulture);

    private static DateTimeOffset? ReadUnix(ReadOnlySpan<byte> text)
    {
        bool good = decimal.TryParse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out decimal seconds)
            && seconds < LatestUnixSeconds;
        return good ? DateTimeOffset.UnixEpoch.AddTicks((long)(seconds * TicksPerSecond)) : null;
    }

    private static DateTimeOffset? ReadIso(ReadOnlySpan<byte> text)
    {
        if (text.Length < 16 || !Number(text, 0, 4, out int year) || !Number(text, 5, 2, out int month) || !Number(text, 8, 2, out int day)
            || !Number(text, 11, 2, out int hour) || !Number(text, 14, 2, out int minute)
            || text[7] != (byte)'-' || text[10] is not ((byte)'T' or (byte)'t') || text[13] != (byte)':')
        {
            return null;
        }

        int at = 16;
        if (!Second(text, ref at, out int second, out long ticks) || !Offset(text[at..], out TimeSpan offset))
        {
            return null;
        }

        if (year is < 1970 or > 2199 || month is < 1 or > 12 || day < 1 || day > DateTime.DaysInMonth(year, month) || hour > 23 || minute > 59 || second > 59)
        {
            return null;
        }

        DateTimeOffset local = new(year, month, day, hour, minute, second, TimeSpan.Zero);
        return local.AddTicks(ticks) - offset;
    }

    private static bool Second(ReadOnlySpan<byte> text, ref int at, out int second, out long ticks)
    {
        second = 0;
        ticks = 0;
        if (at >= text.Length || text[at] != (byte)':')
        {
            return true;
        }

        if (!Number(text, at + 1, 2, out second))
        {
            return false;
        }

        at += 3;
        if (at >= text.Length || text[at] != (byte)'.')
        {
            return true;
        }

        int first = ++at;
        for (long unit = TimeSpan.TicksPerSecond / 10; at < text.Length && char.IsAsciiDigit((char)text[at]); at++, unit /= 10)
        {
            ticks += (text[at] - '0') * unit;
        }

        return at > first;
    }

    private static bool Offset(ReadOnlySpan<byte> text, out TimeSpan offset)
    {
        offset = TimeSpan.Zero;
        if (text.IsEmpty || (text.Length == 1 && text[0] is (byte)'Z' or (byte)'z'))
        {
            return true;
        }

        int minutes = 0;
        bool shape = text[0] is (byte)'+' or (byte)'-' && Number(text, 1, 2, out int hours)
            && (text.Length == 3 || (text.Length == 6 && text[3] == (byte)':' && Number(text, 4, 2, out minutes)))
            && SetOffset(hours, minutes, text[0] == (byte)'-', out offset);
        return shape;
    }

    private static bool SetOffset(int hours, int minutes, bool west, out TimeSpan offset)
    {
        offset = new TimeSpan(hours, minutes, 0) * (west ? -1 : 1);
        return hours <= 23 && minutes <= 59;
    }

    private static bool Number(ReadOnlySpan<byte> text, int at, int digits, out int value)
    {
        value = 0;
        return at + digits <= text.Length && char.IsAsciiDigit((char)text[at])
            && Utf8Parser.TryParse(text.Slice(at, digits), out value, out int used) && used == digits;
    }
}
