using Cockpit.Core.Units;

namespace Cockpit.Core.Formats.Fixes;

/// <summary>Place and time in the sentences of one receiver, NMEA 0183: GGA, GNS, RMC, GLL, ZDA; any talker. Others are passed over.</summary>
/// <remarks>
/// GGA, GNS and GLL hold no day: it is taken from the last RMC or ZDA, the day that is nearest. A place that was estimated, entered by hand or
/// simulated is none (quality 6 to 8; mode E, M, S). Where GGA or GNS come, which hold the height, the places of RMC and GLL are not taken.
/// Sources: IEC 61162-1; E. S. Raymond, NMEA Revealed (the gpsd project), for the meaning of the fields.
/// </remarks>
public sealed class NmeaReader : IFixReader
{
    private static readonly TimeSpan HalfDay = TimeSpan.FromHours(12);

    private DateTimeOffset? _last;
    private bool _hasHeight;
    private bool _isFixed;

    /// <inheritdoc/>
    public int LongestLine => NmeaSentence.LongestLine;

    /// <inheritdoc/>
    public FixReading Read(ReadOnlySpan<byte> line, string source)
    {
        if (line.Trim(" \t\r\0"u8).IsEmpty)
        {
            return default;
        }

        NmeaSentence sentence = NmeaSentence.Read(line, out int column, out string? problem);
        if (problem is not null)
        {
            return new FixReading(Error: new ParseError(source, 0, column, problem));
        }

        ReadOnlySpan<byte> type = sentence.Type;
        return type.SequenceEqual("GGA"u8) ? Gga(sentence)
            : type.SequenceEqual("GNS"u8) ? Gns(sentence)
            : type.SequenceEqual("RMC"u8) ? Rmc(sentence)
            : type.SequenceEqual("GLL"u8) ? Gll(sentence)
            : type.SequenceEqual("ZDA"u8) ? Zda(sentence)
            : default;
    }

    private FixReading Gga(NmeaSentence s)
    {
        _hasHeight = true;
        return Placed(NmeaFields.Whole(s[6]) is (>= 1 and <= 5) or 9, NmeaFields.Latitude(s[2], s[3]), NmeaFields.Longitude(s[4], s[5]), NmeaFields.Number(s[9]) + NmeaFields.Number(s[11]), NmeaFields.TimeOfDay(s[1]));
    }

    private FixReading Gns(NmeaSentence s)
    {
        _hasHeight = true;
        return Placed(s[6].IndexOfAny("ADPRF"u8) >= 0, NmeaFields.Latitude(s[2], s[3]), NmeaFields.Longitude(s[4], s[5]), NmeaFields.Number(s[9]) + NmeaFields.Number(s[10]), NmeaFields.TimeOfDay(s[1]));
    }

    private FixReading Rmc(NmeaSentence s)
    {
        bool good = s[2].SequenceEqual("A"u8) && IsReal(s[12]);
        if (good && NmeaFields.Day(s[9]) is { } day && NmeaFields.TimeOfDay(s[1]) is { } time)
        {
            _last = day + time;
        }

        return _hasHeight ? default : Placed(good, NmeaFields.Latitude(s[3], s[4]), NmeaFields.Longitude(s[5], s[6]), null, NmeaFields.TimeOfDay(s[1]));
    }

    private FixReading Gll(NmeaSentence s) => _hasHeight ? default
        : Placed(s[6].SequenceEqual("A"u8) && IsReal(s[7]), NmeaFields.Latitude(s[1], s[2]), NmeaFields.Longitude(s[3], s[4]), null, NmeaFields.TimeOfDay(s[5]));

    // It says nothing of its worth: without a place a receiver goes by a clock of its own.
    private FixReading Zda(NmeaSentence s)
    {
        if (_isFixed && NmeaFields.Day(NmeaFields.Whole(s[2]), NmeaFields.Whole(s[3]), NmeaFields.Whole(s[4])) is { } day && NmeaFields.TimeOfDay(s[1]) is { } time)
        {
            _last = day + time;
        }

        return default;
    }

    private FixReading Placed(bool good, Angle? latitude, Angle? longitude, double? height, TimeSpan? time)
    {
        _isFixed = good && latitude is not null && longitude is not null;
        return _isFixed && latitude is { } north && longitude is { } east
            ? new FixReading(new Fix(north, east, height is >= -1000 and <= 20000 ? height : null, null, Instant(time)))
            : new FixReading(IsWithoutFix: true);
    }

    private DateTimeOffset? Instant(TimeSpan? time)
    {
        if (_last is not { } last || time is not { } of)
        {
            return null;
        }

        DateTimeOffset instant = new DateTimeOffset(last.Year, last.Month, last.Day, 0, 0, 0, TimeSpan.Zero) + of;
        return instant - last > HalfDay ? instant.AddDays(-1) : last - instant > HalfDay ? instant.AddDays(1) : instant;
    }

    // The mode came with version 2.3 of the standard; before, the field is not there.
    private static bool IsReal(ReadOnlySpan<byte> mode) => mode.IsEmpty || mode.IndexOfAny("ADPRF"u8) >= 0;
}
