using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Session.Cues;

/// <summary>What the peak search remembers.</summary>
/// <param name="Wanted">Why it was wanted at the step before.</param>
/// <param name="Since">When this search began; null before the first and after a mark.</param>
/// <param name="MarkedAt">When the operator marked last.</param>
/// <param name="Lowest">Lowest value of this search, dB.</param>
/// <param name="Best">Best value of this search, dB.</param>
/// <param name="Climb">How far the level had risen to that best, dB.</param>
/// <param name="Armed">Passing the best has not been said since it was there.</param>
/// <param name="LastTick">When it was said last.</param>
/// <param name="Cadence">Pulses a second.</param>
internal readonly record struct PeakMemory(
    SearchReason Wanted,
    TimeSpan? Since,
    TimeSpan? MarkedAt,
    double? Lowest,
    double? Best,
    double Climb,
    bool Armed,
    TimeSpan? LastTick,
    double Cadence);

/// <summary>Why the tone of the search is wanted, weakest first.</summary>
internal enum SearchReason
{
    /// <summary>It is not.</summary>
    None = 0,

    /// <summary>The direction is known too badly.</summary>
    Peak = 1,

    /// <summary>The satellite is lost, or the operator asked.</summary>
    Search = 2,
}

/// <summary>The tone of the search: pitch says how much is missing, cadence whether it gets better.</summary>
/// <remarks>
/// <code>
/// pitch    880 Hz at the expected level, a semitone lower for each dB missing, not below 440 Hz
/// cadence  4 pulses a second: rising faster than 0.3 dB/s; 2: steady; unbroken: falling
/// tick     double, 990 Hz: 0.7 dB below the best, after it
/// </code>
/// As long as no mark has tied the scale, 880 Hz is the best of this search, but at least 12 dB above its lowest. Sounds
/// from the start of a search or of peaking, by key or by itself, until the mark, for 30 s at most; a nudge in between only
/// interrupts it. Peaking that the operator let pass is not asked for again by sound for a minute.
/// </remarks>
internal static class PeakSearch
{
    private const double LongestSeconds = 30.0;
    private const double RestSeconds = 60.0;
    private const double MarkSeconds = 2.0;
    private const double TopHz = 880.0;
    private const double RangeDb = 12.0;
    private const double TrendDbPerSec = 0.3;
    private const double TrendLeaveDbPerSec = 0.2;
    private const double PassedDb = 0.7;
    private const double RearmDb = 0.3;
    private const double TickEverySeconds = 1.5;
    private const double Rising = 4.0;
    private const double Steady = 2.0;
    private const double Falling = 0.0;

    /// <param name="memory">What was remembered.</param>
    /// <param name="moment">The moment.</param>
    /// <param name="stalled">Words have led nowhere; the peak has to be found by ear.</param>
    /// <param name="floor">Who may sound.</param>
    public static (PeakMemory Memory, PeakTone? Tone) Next(PeakMemory memory, CueMoment moment, bool stalled, Floor floor)
    {
        SearchReason wanted = Reason(moment, stalled);
        memory = Begin(memory, wanted, moment) with { Wanted = wanted };
        bool over = wanted == SearchReason.None || moment.Elapsed - memory.Since > moment.Real(LongestSeconds);
        if (over || memory.Since is null || moment.Snapshot.Link is not { Fresh: true, MeasuredDb: { } measured } link) { return (memory, null); }

        memory = Passed(Extremes(memory, measured - (link.ExpectedDb ?? 0.0)), measured - (link.ExpectedDb ?? 0.0), moment, floor);
        memory = memory with { Cadence = CadenceOf(memory.Cadence, link.TrendDbPerSec) };
        return moment.Snapshot.Desk.Muted || floor.IsQuiet ? (memory, null) : (memory, new PeakTone(Pitch(memory, link, measured), memory.Cadence));
    }

    private static SearchReason Reason(CueMoment moment, bool stalled)
    {
        bool lost = moment.InPass && moment.Aim.Word == AimWord.Search;
        bool old = moment.InPass && moment.Aim.Word == AimWord.Peak;
        return moment.Snapshot.Desk.Searching || lost ? SearchReason.Search : old || stalled ? SearchReason.Peak : SearchReason.None;
    }

    private static PeakMemory Begin(PeakMemory memory, SearchReason wanted, CueMoment moment)
    {
        if (moment.Key == OperatorKey.Peaked) { return new PeakMemory { MarkedAt = moment.Elapsed }; }

        // A mark that was taken ends the want; one that was not leaves it, and the search goes on.
        bool judged = !(moment.Elapsed - memory.MarkedAt < moment.Real(MarkSeconds));
        bool first = memory.Since is null && judged;
        bool stronger = wanted > memory.Wanted && wanted == SearchReason.Search;
        bool later = memory.Wanted == SearchReason.None && moment.Elapsed - memory.Since > moment.Real(LongestSeconds + RestSeconds);
        bool begins = moment.Key == OperatorKey.Search || first || stronger || later;
        return wanted != SearchReason.None && begins ? new PeakMemory { Since = moment.Elapsed, Cadence = Steady } : memory;
    }

    private static PeakMemory Extremes(PeakMemory memory, double value)
    {
        double lowest = Math.Min(memory.Lowest ?? value, value);
        bool better = !(value <= memory.Best);
        return memory with
        {
            Lowest = lowest,
            Best = better ? value : memory.Best,
            Climb = better ? value - lowest : memory.Climb,
            Armed = better || memory.Armed || value > memory.Best - RearmDb,
        };
    }

    private static PeakMemory Passed(PeakMemory memory, double value, CueMoment moment, Floor floor)
    {
        bool recent = moment.Elapsed - memory.LastTick < moment.Real(TickEverySeconds);
        bool behind = memory.Climb > PassedDb && memory.Armed && value < memory.Best - PassedDb && !recent;
        return behind && floor.TryStart(CueTable.PeakPassed) ? memory with { Armed = false, LastTick = moment.Elapsed } : memory;
    }

    private static double CadenceOf(double before, double? trend) => trend switch
    {
        null => Steady,
        > TrendDbPerSec => Rising,
        < -TrendDbPerSec => Falling,
        > TrendLeaveDbPerSec when before == Rising => Rising,
        < -TrendLeaveDbPerSec when before == Falling => Falling,
        _ => Steady,
    };

    private static double Pitch(PeakMemory memory, LinkNow link, double measured)
    {
        double top = link.ExpectedDb ?? Math.Max(memory.Best ?? measured, (memory.Lowest ?? measured) + RangeDb);
        return TopHz * Math.Pow(2.0, -Math.Clamp(top - measured, 0.0, RangeDb) / 12.0);
    }
}
