using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Session.Cues;

/// <summary>What the ear of the search remembers; the default has heard nothing yet.</summary>
/// <param name="Tied">Levels are re what is expected, not re what the search has seen.</param>
/// <param name="Level">The level, filtered 0.8 s, dB.</param>
/// <param name="At">When it was heard.</param>
/// <param name="SettledAt">When the filter has settled; extremes count from then on.</param>
/// <param name="Lowest">Lowest level of this search, dB.</param>
/// <param name="Best">Best level of this search, dB.</param>
/// <param name="Climb">How far the level had risen to that best, dB.</param>
/// <param name="Armed">Passing the best has not been said since it was there.</param>
/// <param name="LastTick">When it was said last.</param>
/// <param name="Cadence">Pulses a second; null before the first level.</param>
internal readonly record struct EarMemory(
    bool Tied,
    double? Level,
    TimeSpan At,
    TimeSpan SettledAt,
    double Lowest,
    double Best,
    double Climb,
    bool Armed,
    TimeSpan? LastTick,
    double? Cadence);

/// <summary>Turns levels into pitch, cadence and "best passed".</summary>
/// <remarks>
/// A trend counts when it is steeper than 0.3 dB/s and than two standard deviations of what noise alone does
/// to a slope over two seconds, the best is passed by 0.7 dB and by three deviations of the filtered level, after a climb
/// of 1.5 dB and six: a restless level must not make a restless sound.
/// </remarks>
internal static class PeakEar
{
    private const double FilterSeconds = 0.8;
    private const double SettleSeconds = 2.0 * FilterSeconds;
    private const double TopHz = 880.0;
    private const double RangeDb = 12.0;
    private const double TrendDbPerSec = 0.3;
    private const double LeaveShare = 0.67;
    private const double NoiseShare = 2.0;
    private const double ClimbDb = 1.5;
    private const double PassedDb = 0.7;
    private const double PassedDeviations = 3.0;
    private const double ClimbDeviations = 6.0;
    private const double RearmShare = 0.4;
    private const double TickEverySeconds = 1.5;
    private const double Rising = 4.0;
    private const double Steady = 2.0;
    private const double Falling = 0.0;

    /// <summary>Hears one moment; the level must be fresh.</summary>
    public static EarMemory Next(EarMemory memory, LevelNoise noise, double measuredDb, CueMoment moment, CueArbiter arbiter)
    {
        LinkNow link = moment.Snapshot.Link;
        memory = Filter(memory, link.ExpectedDb is { } expected ? measuredDb - expected : measuredDb, link.ExpectedDb is not null, noise, moment);
        return Passed(memory, noise, moment, arbiter) with { Cadence = CadenceOf(memory.Cadence, link.TrendDbPerSec, noise) };
    }

    /// <summary>The tone that belongs to what was heard.</summary>
    public static PeakTone Tone(EarMemory memory)
    {
        double top = memory.Tied ? 0.0 : Math.Max(memory.Best, memory.Lowest + RangeDb);
        double missing = Math.Clamp(top - (memory.Level ?? top), 0.0, RangeDb);
        return new PeakTone(TopHz * Math.Pow(2.0, -missing / 12.0), memory.Cadence ?? Steady);
    }

    private static EarMemory Filter(EarMemory memory, double value, bool tied, LevelNoise noise, CueMoment moment)
    {
        if (memory.Level is not { } level || memory.Tied != tied)
        {
            // Another scale: nothing heard before can be compared with it.
            return memory with
            {
                Tied = tied,
                Level = value,
                At = moment.Elapsed,
                SettledAt = moment.Elapsed + moment.Real(SettleSeconds),
                Lowest = value,
                Best = value,
                Climb = 0.0,
                Armed = false,
            };
        }

        // Until it has settled the filter is a mean, so that the first value, as noisy as any, does not linger.
        TimeSpan age = moment.Elapsed - memory.SettledAt + moment.Real(SettleSeconds);
        double share = 1.0 - Math.Exp(-(moment.Elapsed - memory.At) / moment.Real(FilterSeconds));
        if (moment.Elapsed < memory.SettledAt && age > TimeSpan.Zero) { share = Math.Max(share, (moment.Elapsed - memory.At) / age); }

        level += share * (value - level);
        if (moment.Elapsed < memory.SettledAt) { return memory with { Level = level, At = moment.Elapsed, Lowest = level, Best = level }; }

        double lowest = Math.Min(memory.Lowest, level);
        bool better = level > memory.Best;
        return memory with
        {
            Level = level,
            At = moment.Elapsed,
            Lowest = lowest,
            Best = better ? level : memory.Best,
            Climb = better ? level - lowest : memory.Climb,
            Armed = better || memory.Armed || level > memory.Best - (RearmShare * PassedBy(noise)),
        };
    }

    private static EarMemory Passed(EarMemory memory, LevelNoise noise, CueMoment moment, CueArbiter arbiter)
    {
        bool recent = moment.Elapsed - memory.LastTick < moment.Real(TickEverySeconds);
        bool climbed = memory.Climb > Math.Max(ClimbDb, ClimbDeviations * noise.FilteredDb(FilterSeconds));
        bool behind = climbed && memory.Armed && memory.Level < memory.Best - PassedBy(noise) && !recent;
        return behind && arbiter.TryStart(CueTable.PeakPassed) ? memory with { Armed = false, LastTick = moment.Elapsed } : memory;
    }

    private static double PassedBy(LevelNoise noise) => Math.Max(PassedDb, PassedDeviations * noise.FilteredDb(FilterSeconds));

    private static double CadenceOf(double? before, double? trend, LevelNoise noise)
    {
        double enter = Math.Max(TrendDbPerSec, NoiseShare * noise.SlopeDbPerSec);
        double leave = LeaveShare * enter;
        return trend switch
        {
            null => Steady,
            { } up when up > (before == Rising ? leave : enter) => Rising,
            { } down when -down > (before == Falling ? leave : enter) => Falling,
            _ => Steady,
        };
    }
}

/// <summary>How restless single levels are, from their successive differences, which a slow rise or fall does not touch.</summary>
/// <param name="LastDb">The last value, dB.</param>
/// <param name="LastAt">When it came.</param>
/// <param name="Variance">Of one value, dB².</param>
/// <param name="IntervalSeconds">Between two values, the listener's seconds.</param>
/// <param name="Count">Differences so far.</param>
internal readonly record struct LevelNoise(double? LastDb, TimeSpan LastAt, double Variance, double IntervalSeconds, int Count)
{
    private const int MostCounted = 40;
    private const double TrendSeconds = 2.0;
    private const double LongestGapSeconds = 3.0;
    private const double MeanSeconds = 0.5;

    /// <summary>Standard deviation that noise alone gives a least-squares slope over two seconds: sigma sqrt(12 / N) / T.</summary>
    public double SlopeDbPerSec => Math.Sqrt(12.0 * Variance * IntervalSeconds / TrendSeconds) / TrendSeconds;

    /// <summary>Standard deviation of a level after a mean of half a second and a filter of one time constant, dB.</summary>
    public double FilteredDb(double filterSeconds) => Math.Sqrt(Variance * IntervalSeconds / ((2.0 * filterSeconds) + MeanSeconds));

    /// <summary>Takes one event; only measurements count.</summary>
    public LevelNoise Next(CueMoment moment)
    {
        if (moment.Event is not SignalMeasured { Sample.SteeringDb: { } db }) { return this; }

        // After a gap the difference is no noise.
        bool gap = moment.Elapsed - LastAt > moment.Real(LongestGapSeconds);
        if (gap || LastDb is not { } last) { return this with { LastDb = db, LastAt = moment.Elapsed }; }

        double square = (db - last) * (db - last) / 2.0;
        double seconds = (moment.Elapsed - LastAt) / moment.Real(1.0);
        int count = Math.Min(Count + 1, MostCounted);
        return new LevelNoise(db, moment.Elapsed, Variance + ((square - Variance) / count), IntervalSeconds + ((seconds - IntervalSeconds) / count), count);
    }
}
