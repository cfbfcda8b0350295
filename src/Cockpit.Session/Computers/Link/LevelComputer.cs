using System.Collections.Immutable;
using Cockpit.Core.Signal;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;
using Cockpit.Session.Computers.Sky;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Session.Computers.Link;

/// <summary>The level: smoothing, trend, half seconds, floor, lock. Pure.</summary>
public static class LevelComputer
{
    private const int MostClosed = 120;
    private const int FloorBins = 4;
    private const double OverFloorDb = 2.0;

    /// <summary>A lowest level is taken for the floor when something at least this much higher was seen too.</summary>
    private const double SignalOverFloorDb = 5.0;

    /// <summary>No signal lies further above its floor; more means that the receiver's chain was switched, and the floor with it.</summary>
    /// <remarks>The link budget gives 20 dB for a 1.0 m dish and a satellite overhead; the rest is margin.</remarks>
    private const double MostOverFloorDb = 25.0;

    /// <summary>How much of a rise the floor follows in half a second while the satellite is below the horizon: 3 s to two thirds.</summary>
    private const double FloorRise = 0.154;

    private static readonly TimeSpan BinLength = TimeSpan.FromSeconds(0.5);
    private static readonly TimeSpan Smoothing = TimeSpan.FromSeconds(0.5);
    private static readonly TimeSpan TrendSpan = TimeSpan.FromSeconds(2);

    /// <summary>Folds one event.</summary>
    /// <param name="memory">The memory before.</param>
    /// <param name="scene">The event and its moment.</param>
    public static LevelMemory Next(LevelMemory memory, Scene scene)
    {
        ArgumentNullException.ThrowIfNull(memory);
        ArgumentNullException.ThrowIfNull(scene);
        memory = CloseBins(scene.Opens ? Opened(scene) : memory, scene);
        memory = Count(memory, scene);
        memory = memory with { ShapeDb = scene.Sky?.Now is { } look && look.Elevation > Angle.Zero ? memory.Law?.ShapeDb(look) : null };
        memory = memory.Closed.IsEmpty ? memory : memory with { AheadDb = Ahead(memory, scene) };
        return scene.Envelope.Event is SignalMeasured measured ? Measure(memory, measured.Sample, scene) : memory;
    }

    /// <summary>What the later steps see.</summary>
    /// <param name="memory">The memory after the event.</param>
    /// <param name="scene">The event and its moment.</param>
    public static LevelNow Derive(LevelMemory memory, Scene scene)
    {
        ArgumentNullException.ThrowIfNull(memory);
        ArgumentNullException.ThrowIfNull(scene);
        Reading<SignalSample>? last = memory.Last is { } sample ? new(sample, scene.Age(memory.LastAt) ?? TimeSpan.Zero) : null;
        bool fresh = last is { IsFresh: true };
        return new LevelNow(
            last,
            memory.Quantity,
            last is { Freshness: not Freshness.Absent } ? Smoothed(memory.Recent) : null,
            fresh ? Trend(memory.Recent) : null,
            memory.Closed,
            memory.ShapeDb,
            LockMissing(memory, scene),
            fresh ? scene.Elapsed - memory.NoSignalSince : null,
            Floor(memory),
            memory.Last?.Locked is not null && scene.Sky is not null && memory.Receivable is { } receivable ? new PassTally(memory.Sent, memory.Received, receivable.Length) : null,
            memory.AheadDb);
    }

    private static LevelMemory Opened(Scene scene)
    {
        ExpectedLevel law = ExpectedLevel.Of(scene.Settings);
        return LevelMemory.Empty with { Law = law, Receivable = scene.Plan is { } plan ? ReceivableSpan.Of(plan, law) : null, At = scene.Elapsed };
    }

    /// <summary>Time of the pass that goes by, with lock or without.</summary>
    private static LevelMemory Count(LevelMemory memory, Scene scene)
    {
        TimeSpan passed = scene is { InPass: true, Sky: { } sky } ? Shorter(scene.Elapsed - memory.At, scene.Utc - sky.Pass.Aos.Utc) : TimeSpan.Zero;
        bool locked = memory.Last is { Locked: true } && scene.Age(memory.LastAt) is { } age && Ages.Judge(age) == Freshness.Fresh;
        return memory with
        {
            At = scene.Elapsed,
            LockSeen = scene.InPass && (memory.LockSeen || locked),
            Sent = memory.Sent + passed,
            Received = memory.Received + (locked ? passed : TimeSpan.Zero),
        };
    }

    private static TimeSpan Shorter(TimeSpan one, TimeSpan other) => one < other ? one : other;

    /// <summary>Lock is missed from when the link budget expects it, or from when there was lock; never after the end of what can be received.</summary>
    private static TimeSpan? LockMissing(LevelMemory memory, Scene scene)
    {
        if (memory.UnlockedSince is not { } since || scene.Sky is null)
        {
            return scene.Elapsed - memory.UnlockedSince;
        }

        if (memory.Receivable is not { } receivable || scene.Utc > receivable.ToUtc)
        {
            return null;
        }

        TimeSpan expected = scene.Utc - receivable.FromUtc;
        TimeSpan missing = scene.Elapsed - since;
        return memory.LockSeen ? missing : expected < TimeSpan.Zero ? null : expected < missing ? expected : missing;
    }

    /// <summary>How much more or less than now a well-pointed dish should show at the moments ahead, dB.</summary>
    private static ImmutableArray<double> Ahead(LevelMemory memory, Scene scene)
    {
        if (memory is not { Law: { } law, ShapeDb: { } now } || scene.Sky is not { } sky || !scene.InPass)
        {
            return [];
        }

        ImmutableArray<double>.Builder ahead = ImmutableArray.CreateBuilder<double>(sky.Ahead.Length);
        foreach (LookAngles look in sky.Ahead)
        {
            if (look.Elevation <= Angle.Zero)
            {
                break;
            }

            ahead.Add(law.ShapeDb(look) - now);
        }

        return ahead.ToImmutable();
    }

    private static LevelMemory Measure(LevelMemory memory, SignalSample sample, Scene scene)
    {
        memory = memory with { Last = sample, LastAt = scene.Elapsed, UnlockedSince = Unlocked(memory, sample, scene) };
        if (sample is not { SteeringDb: { } db, Steers: { } quantity })
        {
            return memory;
        }

        if (memory.Quantity is { } before && before != quantity)
        {
            // Another scale: nothing measured before can be compared with it.
            memory = memory with { Recent = [], Latest = [], LowestDb = null, HighestDb = null, FloorSeen = false, NoSignalSince = null, BinSumDb = 0.0, BinCount = 0 };
        }

        return memory with
        {
            Quantity = quantity,
            Recent = [.. memory.Recent.Where(r => scene.Elapsed - r.At <= TrendSpan), new LevelReading(scene.Elapsed, db)],
            BinSumDb = memory.BinSumDb + db,
            BinCount = memory.BinCount + 1,
        };
    }

    private static TimeSpan? Unlocked(LevelMemory memory, SignalSample sample, Scene scene) => sample.Locked switch
    {
        null => memory.UnlockedSince,
        true => null,
        false => memory.UnlockedSince ?? scene.Elapsed,
    };

    private static LevelMemory CloseBins(LevelMemory memory, Scene scene)
    {
        long bin = scene.Elapsed.Ticks / BinLength.Ticks;
        if (memory.Bin is not { } open || open == bin)
        {
            return memory with { Bin = bin, Closed = [] };
        }

        ImmutableArray<LevelBin>.Builder closed = ImmutableArray.CreateBuilder<LevelBin>();
        for (long closing = Math.Max(open, bin - MostClosed); closing < bin; closing++)
        {
            double? mean = closing == open && memory.BinCount > 0 ? memory.BinSumDb / memory.BinCount : null;
            TimeSpan ago = scene.Elapsed - (BinLength * (closing + 1));
            LevelBin half = new(scene.Utc - ago, mean, memory.Quantity);
            closed.Add(half);
            ImmutableArray<LevelBin> latest = memory.Latest.Length < FloorBins ? memory.Latest : memory.Latest.RemoveAt(0);
            memory = WatchFloor(memory with { Latest = latest.Add(half) }, scene);
        }

        return memory with { Bin = bin, Closed = closed.ToImmutable(), BinSumDb = 0.0, BinCount = 0 };
    }

    private static LevelMemory WatchFloor(LevelMemory memory, Scene scene)
    {
        if (MeanOf(memory.Latest) is not { } mean)
        {
            return memory with { NoSignalSince = null };
        }

        bool below = scene.Sky?.Now?.Elevation < Angle.Zero;
        if (!below && mean - memory.LowestDb > MostOverFloorDb)
        {
            memory = memory with { LowestDb = mean, HighestDb = mean, FloorSeen = false };
        }

        memory = memory with
        {
            LowestDb = Lowest(memory.LowestDb, mean, below),
            HighestDb = below || memory.HighestDb is not { } high ? mean : Math.Max(high, mean),
            FloorSeen = memory.FloorSeen || below,
        };
        bool absent = Floor(memory) is { } floor && mean < floor + OverFloorDb;
        return memory with { NoSignalSince = absent ? memory.NoSignalSince ?? scene.Elapsed - (BinLength * FloorBins) : null };
    }

    /// <summary>The floor falls at once; it rises only while nothing but the floor can be there.</summary>
    private static double Lowest(double? before, double mean, bool below) =>
        before is not { } low || mean < low ? mean : below ? low + (FloorRise * (mean - low)) : low;

    private static double? MeanOf(ImmutableArray<LevelBin> bins)
    {
        double sum = 0.0;
        int count = 0;
        foreach (LevelBin bin in bins)
        {
            sum += bin.MeanDb ?? 0.0;
            count += bin.MeanDb is null ? 0 : 1;
        }

        return bins.Length == FloorBins && count >= FloorBins / 2 ? sum / count : null;
    }

    private static double? Floor(LevelMemory memory) =>
        memory is { LowestDb: { } low, HighestDb: { } high } && (memory.FloorSeen || high - low > SignalOverFloorDb) ? low : null;

    private static double? Smoothed(ImmutableArray<LevelReading> recent)
    {
        if (recent.IsEmpty)
        {
            return null;
        }

        TimeSpan newest = recent[^1].At;
        return recent.Where(r => newest - r.At < Smoothing).Average(r => r.Db);
    }

    /// <summary>Slope by least squares; null for fewer than three values or less than one second.</summary>
    private static double? Trend(ImmutableArray<LevelReading> recent)
    {
        if (recent.Length < 3 || (recent[^1].At - recent[0].At).TotalSeconds < 1.0)
        {
            return null;
        }

        double meanTime = recent.Average(r => (r.At - recent[0].At).TotalSeconds);
        double meanDb = recent.Average(r => r.Db);
        double across = 0.0;
        double square = 0.0;
        foreach (LevelReading reading in recent)
        {
            double time = (reading.At - recent[0].At).TotalSeconds - meanTime;
            across += time * (reading.Db - meanDb);
            square += time * time;
        }

        return across / square;
    }
}
