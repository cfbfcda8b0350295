using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Session.Cues;

/// <summary>What the peak search remembers.</summary>
/// <param name="Wanted">It was wanted at the step before.</param>
/// <param name="Since">When the tone began; null while it is silent.</param>
/// <param name="Lowest">Lowest value of this search, dB.</param>
/// <param name="Best">Best value of this search, dB.</param>
/// <param name="Climb">How far the level had risen to that best, dB.</param>
/// <param name="Armed">Passing the best has not been said since it was there.</param>
/// <param name="LastTick">When it was said last.</param>
/// <param name="Cadence">Pulses a second.</param>
internal readonly record struct PeakMemory(bool Wanted, TimeSpan? Since, double? Lowest, double? Best, double Climb, bool Armed, TimeSpan? LastTick, double Cadence);

/// <summary>The tone of the search: pitch says how much is missing, cadence whether it gets better.</summary>
/// <remarks>
/// <code>
/// pitch    880 Hz at the expected level, a semitone lower for each dB missing, not below 440 Hz
/// cadence  4 pulses a second: rising faster than 0.3 dB/s; 2: steady; unbroken: falling
/// tick     double, 990 Hz: 0.7 dB below the best, after it
/// </code>
/// As long as no mark has tied the scale, 880 Hz is the best of this search, but at least 12 dB above its lowest. Sounds
/// from the start of a search or of peaking, by key or by itself, until the mark, for 30 s at most.
/// </remarks>
internal static class PeakSearch
{
    private const double LongestSeconds = 30.0;
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
        bool wanted = moment.Snapshot.Desk.Searching || stalled || (moment.InPass && moment.Aim.Word is AimWord.Search or AimWord.Peak);
        bool asked = moment.Key == OperatorKey.Search && wanted;
        bool over = !wanted || moment.Key == OperatorKey.Peaked || moment.Elapsed - memory.Since > moment.Real(LongestSeconds);
        if (wanted && (asked || !memory.Wanted)) { memory = new PeakMemory { Since = moment.Elapsed, Cadence = Steady }; }
        else if (over) { memory = memory with { Since = null }; }

        memory = memory with { Wanted = wanted };
        if (memory.Since is null || moment.Snapshot.Link is not { Fresh: true, MeasuredDb: { } measured } link) { return (memory, null); }

        memory = Passed(Extremes(memory, measured - (link.ExpectedDb ?? 0.0)), measured - (link.ExpectedDb ?? 0.0), moment, floor);
        memory = memory with { Cadence = CadenceOf(memory.Cadence, link.TrendDbPerSec) };
        return moment.Snapshot.Desk.Muted || floor.IsQuiet ? (memory, null) : (memory, new PeakTone(Pitch(memory, link, measured), memory.Cadence));
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
