using System.Collections.Immutable;
using Cockpit.Core.Signal;
using Cockpit.Session.State;

namespace Cockpit.Exports;

/// <summary>The columns of the grid, each with how it is read off the moment.</summary>
internal static class GridColumns
{
    private const int DegreeDecimals = 4;
    private const int DecibelDecimals = 3;

    private static readonly ImmutableArray<(ExportColumn Column, Func<GridMoment, ExportValue> Read)> Table =
    [
        (new("elapsed_s", "s", ExportKind.Number, "session time"), m => ExportValue.Of(m.Elapsed.TotalSeconds, 1)),
        (new("utc", "UTC", ExportKind.Instant, "the same moment"), m => ExportValue.Of(m.Utc)),
        (new("phase", "", ExportKind.Text, "waiting, ready, climbing, sinking, over"), m => Word(m.Snapshot.Sky?.Phase)),
        (new("azimuth_deg", "deg", ExportKind.Number, "satellite, true, from north through east"), m => Degrees(m.Look?.Azimuth.Degrees)),
        (new("elevation_deg", "deg", ExportKind.Number, "satellite, above the horizon, geometric"), m => Degrees(m.Look?.Elevation.Degrees)),
        (new("range_km", "km", ExportKind.Number, "satellite"), m => ExportValue.Of(m.Look?.RangeKm, 4)),
        (new("range_rate_km_s", "km/s", ExportKind.Number, "satellite, positive = going away"), m => ExportValue.Of(m.Look?.RangeRateKmPerSec, 6)),
        (new("doppler_hz", "Hz", ExportKind.Number, "predicted shift of the carrier, positive = received higher"), m => ExportValue.Of(m.Snapshot.Link.Doppler?.Hertz, 1)),
        (new("sample_age_s", "s", ExportKind.Number, "how old the measurement of this row is, real time; it is left out when older than 2 s"), m => ExportValue.Of(Age(m)?.TotalSeconds, 3)),
        (new("level_db", "dB", ExportKind.Number, "measured level, as the receiver tells it"), m => Decibels(Sample(m)?.LevelDb)),
        (new("snr_db", "dB", ExportKind.Number, "measured signal to noise"), m => Decibels(Sample(m)?.SnrDb)),
        (new("cn0_db_hz", "dB Hz", ExportKind.Number, "measured carrier to noise density"), m => Decibels(Sample(m)?.Cn0DbHz)),
        (new("offset_hz", "Hz", ExportKind.Number, "measured carrier, less where the receiver is tuned"), m => ExportValue.Of(Sample(m)?.OffsetHz, 2)),
        (new("locked", "", ExportKind.Truth, "the decoder is locked"), m => ExportValue.Of(Sample(m)?.Locked)),
        (new("frames", "", ExportKind.Whole, "frames received so far"), m => ExportValue.Of(Sample(m)?.Frames)),
        (new("frames_lost", "", ExportKind.Whole, "frames lost so far, where the decoder tells"), m => ExportValue.Of(Sample(m)?.FramesLost)),
        (new("bit_error_ratio", "1", ExportKind.Number, "0 to 1"), m => ExportValue.Of(Sample(m)?.BitErrorRatio, 9)),
        (new("clipped", "1", ExportKind.Number, "share of clipped samples, 0 to 1"), m => ExportValue.Of(Sample(m)?.Clipped, 6)),
        (new("steering_db", "dB", ExportKind.Number, "the value that steers, smoothed over 0.5 s: SNR, else C/N0, else level"), m => Decibels(m.Snapshot.Link.MeasuredDb)),
        (new("expected_db", "dB", ExportKind.Number, "what a well-pointed dish should show, in the same unit"), m => Decibels(m.Snapshot.Link.ExpectedDb)),
        (new("floor_db", "dB", ExportKind.Number, "the receiver's floor as seen so far"), m => Decibels(m.Snapshot.Link.FloorDb)),
        (new("word", "", ExportKind.Text, "what the operator was asked for: point, hold, next, move, search, done"), m => Word<AimWord>(m.Snapshot.Aim.Word)),
        (new("reason", "", ExportKind.Text, "why"), m => Word<AimReason>(m.Snapshot.Aim.Reason)),
        (new("nudge_right_deg", "deg", ExportKind.Number, "the move that was called or comes next, on the sky, positive = right"), m => Degrees(m.Snapshot.Aim.Nudge?.Right.Degrees)),
        (new("nudge_up_deg", "deg", ExportKind.Number, "the same, positive = up"), m => Degrees(m.Snapshot.Aim.Nudge?.Up.Degrees)),
        (new("dish_azimuth_deg", "deg", ExportKind.Number, "believed direction of the dish, true"), m => Degrees(m.Snapshot.Aim.Dish?.Azimuth.Degrees)),
        (new("dish_elevation_deg", "deg", ExportKind.Number, "the same"), m => Degrees(m.Snapshot.Aim.Dish?.Elevation.Degrees)),
        (new("dish_spread_deg", "deg", ExportKind.Number, "how well it is known, one standard deviation an axis"), m => Degrees(m.Snapshot.Aim.Dish?.Spread.Degrees)),
        (new("error_right_deg", "deg", ExportKind.Number, "satellite less dish on the sky, as believed, positive = right"), m => Degrees(m.Snapshot.Aim.Error?.Right.Degrees)),
        (new("error_up_deg", "deg", ExportKind.Number, "the same, positive = up"), m => Degrees(m.Snapshot.Aim.Error?.Up.Degrees)),
        (new("pointing_loss_db", "dB", ExportKind.Number, "what that costs, as believed"), m => Decibels(m.Snapshot.Aim.PointingLoss?.Value)),
        (new("in_beam", "1", ExportKind.Number, "probability that the satellite is within the half-power beam"), m => ExportValue.Of(m.Snapshot.Aim.InBeam, 4)),
        (new("true_azimuth_deg", "deg", ExportKind.Number, "rehearsal only: where the simulated dish points"), m => Degrees(m.Truth?.Azimuth.Degrees)),
        (new("true_elevation_deg", "deg", ExportKind.Number, "the same"), m => Degrees(m.Truth?.Elevation.Degrees)),
        (new("true_margin_db", "dB", ExportKind.Number, "rehearsal only: margin over the threshold of the picture"), m => Decibels(m.Truth?.Margin.Value)),
        (new("line", "", ExportKind.Whole, "line of the picture that is sent now, from 1 at the first one watched"), m => ExportValue.Of(Line(m) + 1L)),
        (new("line_received", "", ExportKind.Truth, "whether it was received"), m => ExportValue.Of(Line(m) is { } line ? m.Lines?.Received(line) : null)),
        (new("cause", "", ExportKind.Text, "why it was lost"), m => ExportValue.Of(Line(m) is { } line ? m.Lines?.Cause(line) : null)),
    ];

    /// <summary>All columns in their order.</summary>
    public static ImmutableArray<ExportColumn> All { get; } = [.. Table.Select(one => one.Column)];

    /// <summary>A row.</summary>
    public static ExportValue[] Row(GridMoment moment)
    {
        var row = new ExportValue[Table.Length];
        for (int i = 0; i < row.Length; i++)
        {
            row[i] = Table[i].Read(moment);
        }

        return row;
    }

    private static TimeSpan? Age(GridMoment m)
    {
        TimeSpan? age = m.Snapshot.Link.Last is { } last ? last.Age + ((m.Elapsed - m.Snapshot.Elapsed) / (m.Snapshot.Settings?.Speed ?? 1.0)) : null;
        return age is { } real && Ages.Judge(real) == Freshness.Fresh ? real : null;
    }

    private static SignalSample? Sample(GridMoment m) => Age(m) is null ? null : m.Snapshot.Link.Last?.Value;

    private static int? Line(GridMoment m) => m.Lines?.At(m.Utc);

    private static ExportValue Degrees(double? degrees) => ExportValue.Of(degrees, DegreeDecimals);

    private static ExportValue Decibels(double? decibels) => ExportValue.Of(decibels, DecibelDecimals);

    private static ExportValue Word<T>(T? word)
        where T : struct, Enum => ExportValue.Of(word?.ToString().ToLowerInvariant());
}
