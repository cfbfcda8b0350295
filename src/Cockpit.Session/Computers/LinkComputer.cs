using System.Collections.Immutable;
using Cockpit.Core.Signal;
using Cockpit.Core.Units;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Session.Computers;

/// <summary>The radio side: smoothing, trend, history, floor, lock, Doppler, expectation. Pure.</summary>
public static class LinkComputer
{
    private const int HistoryPoints = 120;
    private const int FloorPoints = 4;
    private const double OverFloorDb = 2.0;

    /// <summary>A lowest level is taken for the floor when something at least this much higher was seen too.</summary>
    private const double SignalOverFloorDb = 5.0;

    private static readonly TimeSpan BinLength = TimeSpan.FromSeconds(0.5);
    private static readonly TimeSpan Smoothing = TimeSpan.FromSeconds(0.5);
    private static readonly TimeSpan TrendSpan = TimeSpan.FromSeconds(2);
    private static readonly TimeSpan FreshFor = TimeSpan.FromSeconds(2);
    private static readonly TimeSpan ShownFor = TimeSpan.FromSeconds(10);

    /// <summary>Folds one event.</summary>
    /// <param name="memory">The memory before.</param>
    /// <param name="context">Sky and scale at the event.</param>
    /// <param name="envelope">The event.</param>
    public static LinkMemory Next(LinkMemory memory, LinkContext context, Envelope envelope)
    {
        ArgumentNullException.ThrowIfNull(memory);
        ArgumentNullException.ThrowIfNull(context);
        ArgumentNullException.ThrowIfNull(envelope);
        memory = CloseBins(memory, context, envelope) with { Now = envelope.Elapsed, NowUtc = envelope.Utc };
        return envelope.Event is SignalMeasured measured ? Measure(memory, measured.Sample, envelope) : memory;
    }

    /// <summary>What screen, cues and aim see.</summary>
    /// <param name="memory">The memory after the event.</param>
    /// <param name="context">Sky and scale at the event.</param>
    public static LinkNow Derive(LinkMemory memory, LinkContext context)
    {
        ArgumentNullException.ThrowIfNull(memory);
        ArgumentNullException.ThrowIfNull(context);

        // The sender lives in real time, so ages are judged in it.
        TimeSpan? age = memory.Last is null ? null : (memory.Now - memory.LastElapsed) / context.Settings.Speed;
        bool fresh = age <= FreshFor;
        return new LinkNow(
            Doppler(context),
            DopplerRate(context, memory.NowUtc),
            memory.Last,
            memory.LastUtc,
            fresh,
            memory.Quantity,
            age <= ShownFor ? Smoothed(memory.Recent) : null,
            Expected(memory, context),
            fresh ? Trend(memory.Recent) : null,
            memory.History,
            memory.Now - memory.UnlockedSince,
            fresh ? memory.Now - memory.NoSignalSince : null,
            Floor(memory));
    }

    private static double? Expected(LinkMemory memory, LinkContext context) =>
        ExpectedLevel.Db(context.Settings, context.Sky?.Now, memory.Quantity, context.GainDb);

    private static LinkMemory Measure(LinkMemory memory, SignalSample sample, Envelope envelope)
    {
        memory = memory with { Last = sample, LastUtc = envelope.Utc, LastElapsed = envelope.Elapsed, UnlockedSince = Unlocked(memory, sample, envelope) };
        if (sample.SteeringDb is not { } db)
        {
            return memory;
        }

        string quantity = sample switch
        {
            { SnrDb: not null } => Quantities.SignalToNoise,
            { Cn0DbHz: not null } => Quantities.CarrierToNoiseDensity,
            _ => Quantities.Level,
        };
        if (memory.Quantity is not null && !string.Equals(memory.Quantity, quantity, StringComparison.Ordinal))
        {
            // Another scale: nothing measured before can be compared with it.
            memory = memory with { Recent = [], LowestDb = null, HighestDb = null, FloorSeen = false, NoSignalSince = null, BinSumDb = 0.0, BinCount = 0 };
        }

        return memory with
        {
            Quantity = quantity,
            Recent = [.. memory.Recent.Where(r => envelope.Elapsed - r.Elapsed <= TrendSpan), new LevelReading(envelope.Elapsed, db)],
            BinSumDb = memory.BinSumDb + db,
            BinCount = memory.BinCount + 1,
        };
    }

    private static TimeSpan? Unlocked(LinkMemory memory, SignalSample sample, Envelope envelope) => sample.Locked switch
    {
        null => memory.UnlockedSince,
        true => null,
        false => memory.UnlockedSince ?? envelope.Elapsed,
    };

    private static LinkMemory CloseBins(LinkMemory memory, LinkContext context, Envelope envelope)
    {
        long bin = envelope.Elapsed.Ticks / BinLength.Ticks;
        if (memory.Bin is not { } open)
        {
            return memory with { Bin = bin };
        }

        long first = Math.Max(open, bin - HistoryPoints);
        for (long closing = first; closing < bin; closing++)
        {
            double? mean = closing == open && memory.BinCount > 0 ? memory.BinSumDb / memory.BinCount : null;
            TimeSpan ago = envelope.Elapsed - (BinLength * (closing + 1));
            LevelPoint point = new(envelope.Utc - ago, mean, Expected(memory, context));
            ImmutableArray<LevelPoint> history = memory.History.Length < HistoryPoints ? memory.History : memory.History.RemoveAt(0);
            memory = WatchFloor(memory with { History = history.Add(point) }, context, envelope);
        }

        return bin == open ? memory : memory with { Bin = bin, BinSumDb = 0.0, BinCount = 0 };
    }

    private static LinkMemory WatchFloor(LinkMemory memory, LinkContext context, Envelope envelope)
    {
        if (MeanOfLast(memory.History) is not { } mean)
        {
            return memory with { NoSignalSince = null };
        }

        memory = memory with
        {
            LowestDb = memory.LowestDb is { } low ? Math.Min(low, mean) : mean,
            HighestDb = memory.HighestDb is { } high ? Math.Max(high, mean) : mean,
            FloorSeen = memory.FloorSeen || context.Sky?.Now?.Elevation < Angle.Zero,
        };
        bool absent = Floor(memory) is { } floor && mean < floor + OverFloorDb;
        return memory with { NoSignalSince = absent ? memory.NoSignalSince ?? envelope.Elapsed - (BinLength * FloorPoints) : null };
    }

    private static double? MeanOfLast(ImmutableArray<LevelPoint> history)
    {
        if (history.Length < FloorPoints)
        {
            return null;
        }

        double sum = 0.0;
        int count = 0;
        foreach (LevelPoint point in history.AsSpan()[^FloorPoints..])
        {
            sum += point.MeasuredDb ?? 0.0;
            count += point.MeasuredDb is null ? 0 : 1;
        }

        return count >= FloorPoints / 2 ? sum / count : null;
    }

    private static double? Floor(LinkMemory memory) =>
        memory is { LowestDb: { } low, HighestDb: { } high } && (memory.FloorSeen || high - low > SignalOverFloorDb) ? low : null;

    private static double? Smoothed(ImmutableArray<LevelReading> recent)
    {
        if (recent.IsEmpty)
        {
            return null;
        }

        TimeSpan newest = recent[^1].Elapsed;
        return recent.Where(r => newest - r.Elapsed < Smoothing).Average(r => r.Db);
    }

    /// <summary>Slope by least squares; null for fewer than three values or less than one second.</summary>
    private static double? Trend(ImmutableArray<LevelReading> recent)
    {
        if (recent.Length < 3 || (recent[^1].Elapsed - recent[0].Elapsed).TotalSeconds < 1.0)
        {
            return null;
        }

        double meanTime = recent.Average(r => (r.Elapsed - recent[0].Elapsed).TotalSeconds);
        double meanDb = recent.Average(r => r.Db);
        double across = 0.0;
        double square = 0.0;
        foreach (LevelReading reading in recent)
        {
            double time = (reading.Elapsed - recent[0].Elapsed).TotalSeconds - meanTime;
            across += time * (reading.Db - meanDb);
            square += time * time;
        }

        return across / square;
    }

    private static Frequency? Doppler(LinkContext context) =>
        context.Sky?.Now is { } look ? ShiftOf(context.Settings.Downlink, look.RangeRateKmPerSec) : null;

    /// <summary>Rate from the range rate half a second before and after.</summary>
    private static double? DopplerRate(LinkContext context, DateTimeOffset utc)
    {
        TimeSpan half = TimeSpan.FromSeconds(0.5);
        return context is { Sky: not null, Track: { } track } && track.At(utc - half) is { } before && track.At(utc + half) is { } after
            ? ShiftOf(context.Settings.Downlink, after.RangeRateKmPerSec - before.RangeRateKmPerSec).Hertz
            : null;
    }

    /// <summary>First-order shift f0 (-v / c); the second order is below 1e-9 of the carrier for a low orbit.</summary>
    private static Frequency ShiftOf(Frequency carrier, double rangeRateKmPerSec) =>
        new(carrier.Hertz * -rangeRateKmPerSec * 1000.0 / Frequency.SpeedOfLightMetresPerSecond);
}
