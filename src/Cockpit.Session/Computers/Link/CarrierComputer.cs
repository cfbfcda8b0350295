using System.Collections.Immutable;
using Cockpit.Core.Link;
using Cockpit.Core.Units;
using Cockpit.Session.Computers.Sky;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Session.Computers.Link;

/// <summary>What the comparison of the carrier with its prediction remembers between events; all times are session time.</summary>
public sealed record CarrierMemory
{
    /// <summary>Nothing measured yet.</summary>
    public static CarrierMemory Empty { get; } = new();

    /// <summary>The seconds that are over, oldest first, and the UTC that each was predicted for.</summary>
    public ImmutableArray<(DateTimeOffset Utc, SlipPoint Point)> Points { get; init; } = [];

    /// <summary>Number of the second that is running; null before the first event.</summary>
    public long? Second { get; init; }

    /// <summary>The offsets that came in it, Hz.</summary>
    public ImmutableArray<double> Offsets { get; init; } = [];

    /// <summary>When the first of them came, UTC.</summary>
    public DateTimeOffset FirstUtc { get; init; }

    /// <summary>When the last of them came, UTC.</summary>
    public DateTimeOffset LastUtc { get; init; }

    /// <summary>When the last second that brought one ended.</summary>
    public TimeSpan? LastAt { get; init; }

    /// <summary>What the seconds give.</summary>
    public Slip Slip { get; init; } = new(Follows: false, null, double.PositiveInfinity);

    /// <summary>The slip is large beyond doubt.</summary>
    public bool IsWrong { get; init; }
}

/// <summary>Compares the measured carrier with the predicted Doppler shift, and says by how much elements or clock slip. Pure.</summary>
public static class CarrierComputer
{
    // Five minutes hold the steep part of a pass; a second's median is free of single wrong lines.
    private const int MostPoints = 300;

    // Two seconds are a degree near the zenith at 830 km.
    private const double LargeSlip = 2.0;
    private const double LargeSlipEnds = 1.5;
    private const double SureSd = 0.5;
    private const double SureRatio = 4.0;
    private static readonly Frequency Usual = new LinkModel().Carrier;
    private static readonly TimeSpan Second = TimeSpan.FromSeconds(1);
    private static readonly TimeSpan Stays = TimeSpan.FromSeconds(3);

    /// <summary>Folds one event.</summary>
    /// <param name="memory">The memory before.</param>
    /// <param name="scene">The event and its moment.</param>
    public static CarrierMemory Next(CarrierMemory memory, Scene scene)
    {
        ArgumentNullException.ThrowIfNull(memory);
        ArgumentNullException.ThrowIfNull(scene);
        memory = CloseSecond(scene.Opens ? CarrierMemory.Empty : memory, scene);
        return scene.Envelope.Event switch
        {
            SignalMeasured { Sample.OffsetHz: { } offset } => Took(memory, offset, scene.Utc),
            ClockCorrected corrected => Judge(memory with { Points = Moved(memory.Points, corrected.Change, scene) }),
            _ => memory,
        };
    }

    /// <summary>What screen and cues see; null where no carrier is measured.</summary>
    /// <param name="memory">The memory after the event.</param>
    /// <param name="scene">The event and its moment.</param>
    public static CarrierNow? Derive(CarrierMemory memory, Scene scene)
    {
        ArgumentNullException.ThrowIfNull(memory);
        ArgumentNullException.ThrowIfNull(scene);
        if (memory.Points.IsEmpty)
        {
            return null;
        }

        double? now = scene.Age(memory.LastAt) < Stays ? SlipFit.DifferenceHz(memory.Points[^1].Point, memory.Slip.Follows) : null;
        return new CarrierNow(now, memory.Slip.SlipSeconds is { } slip ? new SlipNow(slip, memory.Slip.Sd, memory.IsWrong) : null);
    }

    /// <summary>Where the carrier is received now. The carrier that budgets are made with where none was told is nothing to tune to.</summary>
    /// <param name="scene">The event and its moment.</param>
    public static Frequency? TuneTo(Scene scene)
    {
        ArgumentNullException.ThrowIfNull(scene);
        return scene is { Sky.Now: { } look, Settings.Downlink: var carrier } && carrier != Usual ? carrier + Doppler.Shift(carrier, look.RangeRateKmPerSec) : null;
    }

    private static CarrierMemory CloseSecond(CarrierMemory memory, Scene scene)
    {
        long second = (long)(scene.Elapsed / scene.Session(Second));
        if (memory.Second == second)
        {
            return memory;
        }

        CarrierMemory begun = memory with { Second = second, Offsets = [] };
        DateTimeOffset middle = memory.FirstUtc + ((memory.LastUtc - memory.FirstUtc) / 2);
        if (memory.Offsets.IsEmpty || Predicted(middle, scene) is not { } predicted)
        {
            return begun;
        }

        SlipPoint point = predicted with { OffsetHz = memory.Offsets.Sort()[memory.Offsets.Length / 2] };
        ImmutableArray<(DateTimeOffset, SlipPoint)> latest = memory.Points.Length < MostPoints ? memory.Points : memory.Points.RemoveAt(0);
        return Judge(begun with { Points = latest.Add((middle, point)), LastAt = scene.Elapsed });
    }

    private static CarrierMemory Took(CarrierMemory memory, double offset, DateTimeOffset utc) => memory with
    {
        Offsets = memory.Offsets.Add(offset),
        FirstUtc = memory.Offsets.IsEmpty ? utc : memory.FirstUtc,
        LastUtc = utc,
    };

    /// <summary>The predictions of the seconds so far by a clock that was wrong by a change.</summary>
    private static ImmutableArray<(DateTimeOffset Utc, SlipPoint Point)> Moved(
        ImmutableArray<(DateTimeOffset Utc, SlipPoint Point)> points, TimeSpan change, Scene scene) =>
        [.. points.Select(p => Predicted(p.Utc + change, scene) is { } predicted ? (p.Utc + change, predicted with { OffsetHz = p.Point.OffsetHz }) : p)];

    /// <summary>Shift and rate at an instant above the horizon: rate from the range rate half a second before and after.</summary>
    private static SlipPoint? Predicted(DateTimeOffset utc, Scene scene)
    {
        TimeSpan half = Second / 2;
        if (scene.Plan is not { Track: { } track } plan
            || track.At(utc) is not { } look || look.Elevation < Angle.Zero
            || track.At(utc - half) is not { } before || track.At(utc + half) is not { } after)
        {
            return null;
        }

        Frequency carrier = scene.Settings.Downlink;
        return new SlipPoint(
            (utc - plan.Pass.Aos.Utc).TotalSeconds,
            0.0,
            Doppler.Shift(carrier, look.RangeRateKmPerSec).Hertz,
            Doppler.RateHertzPerSecond(carrier, after.RangeRateKmPerSec - before.RangeRateKmPerSec));
    }

    private static CarrierMemory Judge(CarrierMemory memory)
    {
        Slip slip = SlipFit.Of([.. memory.Points.Select(p => p.Point)]);
        double size = Math.Abs(slip.SlipSeconds ?? 0.0);
        bool sure = slip.Sd < SureSd && size > SureRatio * slip.Sd;
        return memory with { Slip = slip, IsWrong = sure && size > (memory.IsWrong ? LargeSlipEnds : LargeSlip) };
    }
}
