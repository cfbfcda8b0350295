using System.Globalization;
using Cockpit.Core.Geo;
using Cockpit.Core.Signal;
using Cockpit.Session.Events;

namespace Cockpit.Devices.Journal;

/// <summary>What the values of an event can be: a line with another one is well-formed, but no session of ours.</summary>
/// <remarks>The same ranges hold where such values enter the program: in the grammar of a feed and in the options.</remarks>
internal static class EventLimits
{
    /// <summary>No elements are good for longer.</summary>
    private static readonly TimeSpan LongestSession = TimeSpan.FromDays(366);

    private static readonly TimeSpan LargestCorrection = TimeSpan.FromDays(366 * 250);

    private const int FirstYear = 1957;
    private const int LastYear = 2200;
    private const double LargestDb = 250;
    private const double LargestMarginDb = 1000;
    private const double LargestOffsetHz = 1e9;
    private const double LargestRate = 1e12;
    private const double LargestDoubtMetres = 1e6;
    private const int MostRows = 64;

    /// <summary>A line with what is wild in it told, and mended or taken out.</summary>
    internal static JournalRecord Limited(JournalRecord record)
    {
        if (record.Envelope is not { } envelope)
        {
            return record;
        }

        if (Problem(envelope) is { } problem)
        {
            return record with { Envelope = null, Wild = problem };
        }

        if (envelope.Event is not SessionOpened opened)
        {
            return record;
        }

        SessionSettings settings = SettingsLimits.Mended(opened.Settings, out string? remark);
        return remark is null ? record : record with { Envelope = envelope with { Event = opened with { Settings = settings } }, Wild = remark };
    }

    /// <summary>What is wild about an event; null when nothing is.</summary>
    private static string? Problem(Envelope envelope) =>
        envelope.Sequence < 1 ? Found("seq", envelope.Sequence)
        : envelope.Elapsed < TimeSpan.Zero || envelope.Elapsed > LongestSession ? Found("elapsed_s", envelope.Elapsed.TotalSeconds)
        : ProblemOf("utc", envelope.Utc) ?? ProblemOf(envelope.Event);

    private static string? ProblemOf(SessionEvent happened) => happened switch
    {
        SessionOpened opened => ProblemOf(opened.Settings.Station),
        SignalMeasured measured => ProblemOf(measured.Sample),
        ClockCorrected corrected when corrected.Change.Duration() > LargestCorrection => Found("change_s", corrected.Change.TotalSeconds),
        ClockCompared compared when compared.Behind?.Duration() > LargestCorrection || compared.Doubt.Duration() > LargestCorrection => Found("behind_s", compared.Behind?.TotalSeconds ?? compared.Doubt.TotalSeconds),
        OperatorPressed pressed when !Enum.IsDefined(pressed.Key) => Found("key", (int)pressed.Key),
        HeadTurned turn => Outside("pan_rad", turn.Pan.Radians, -2 * Math.PI, 2 * Math.PI) ?? Outside("tilt_rad", turn.Tilt.Radians, -Math.PI, Math.PI),
        TruthRecorded truth => Outside("azimuth_rad", truth.Azimuth.Radians, -4 * Math.PI, 4 * Math.PI)
            ?? Outside("elevation_rad", truth.Elevation.Radians, -Math.PI, Math.PI)
            ?? Outside("margin_db", truth.Margin.Value, -LargestMarginDb, LargestMarginDb),
        FeedLineRejected rejected when rejected.Total < 0 || rejected.InARow < 0 => Found("total", rejected.Total),
        PictureGrew grew => ProblemOf(grew),
        PlaceFixed place => ProblemOf(new Site(place.Latitude, place.Longitude, place.HeightMetres ?? 0))
            ?? Outside("doubt_metres", place.DoubtMetres, 0, LargestDoubtMetres)
            ?? (place.Utc is { } utc ? ProblemOf("utc of the place", utc) : null),
        ReceiverTuned tuned => Outside("frequency_hz", tuned.Frequency.Hertz, 0, LargestRate),
        PointingMeasured { Sample: var said } pointing => Outside("azimuth_rad", said.Azimuth?.Radians, 0, 2 * Math.PI)
            ?? Outside("elevation_rad", said.Elevation?.Radians, -Math.PI / 2, Math.PI / 2)
            ?? Outside("roll_rad", said.Roll?.Radians, -Math.PI, Math.PI)
            ?? Outside("age_s", pointing.Age?.TotalSeconds, 0, LongestSession.TotalSeconds)
            ?? (Enum.IsDefined(said.North) ? null : Found("north", (int)said.North)),
        DirectionKnown known => Outside("azimuth_rad", known.Azimuth.Radians, 0, 2 * Math.PI)
            ?? Outside("elevation_rad", known.Elevation?.Radians, -Math.PI / 2, Math.PI / 2)
            ?? Outside("spread_rad", known.Spread.Radians, 0, Math.PI),
        DiskMeasured { FreeBytes: < 0 } disk => Found("free_bytes", disk.FreeBytes.Value),
        DiskMeasured { NeededBytes: < 0 } disk => Found("needed_bytes", disk.NeededBytes),
        RecordingWatched { Bytes: < 0 } watched => Found("bytes", watched.Bytes),
        RecordingWatched { FreeBytes: < 0 } watched => Found("free_bytes", watched.FreeBytes.Value),
        RecordingWatched watched => Outside("bytes_per_second", watched.BytesPerSecond, 0, LargestRate)
            ?? (watched.StoodStill < TimeSpan.Zero || watched.StoodStill > LongestSession ? Found("stood_still_s", watched.StoodStill.TotalSeconds) : null),
        _ => null,
    };

    private static string? ProblemOf(PictureGrew grew) =>
        grew.FirstLine < 1 ? Found("first_line", grew.FirstLine)
        : grew.Rows.IsDefault || grew.Rows.Length > MostRows || !grew.Rows.All(GreyRow.IsRow) ? "rows are no lines of a picture"
        : null;

    private static string? ProblemOf(Site station) =>
        Outside("latitude_rad", station.Latitude.Radians, -Math.PI / 2, Math.PI / 2)
        ?? Outside("longitude_rad", station.Longitude.Radians, -Math.PI, Math.PI)
        ?? Outside("height_metres", station.HeightMetres, -1000, 20000);

    private static string? ProblemOf(SignalSample sample) =>
        Outside("level_db", sample.LevelDb, -LargestDb, LargestDb)
        ?? Outside("snr_db", sample.SnrDb, -LargestDb, LargestDb)
        ?? Outside("cn0_db_hz", sample.Cn0DbHz, -LargestDb, LargestDb)
        ?? Outside("offset_hz", sample.OffsetHz, -LargestOffsetHz, LargestOffsetHz)
        ?? Outside("bit_error_ratio", sample.BitErrorRatio, 0, 1)
        ?? Outside("clipped", sample.Clipped, 0, 1)
        ?? (sample.FramesLost < 0 ? Found("frames_lost", sample.FramesLost.Value) : null)
        ?? (sample.Frames < 0 ? Found("frames", sample.Frames.Value) : null)
        ?? (sample.Utc is { } utc ? ProblemOf("utc of the sample", utc) : null);

    private static string? ProblemOf(string name, DateTimeOffset utc) =>
        utc.Year is >= FirstYear and <= LastYear ? null : string.Create(CultureInfo.InvariantCulture, $"{name} is in the year {utc.Year}");

    // Written so that NaN is outside.
    private static string? Outside(string name, double? value, double least, double most) =>
        value is null || (value >= least && value <= most) ? null : Found(name, value.Value);

    private static string Found(string name, double value) => string.Create(CultureInfo.InvariantCulture, $"{name} is {value}");
}
