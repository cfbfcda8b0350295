using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Session.Cues;

/// <summary>What the peak search remembers.</summary>
/// <param name="Wanted">Why it was wanted at the step before.</param>
/// <param name="Since">When this search began; null before the first and after a mark.</param>
/// <param name="MarkedAt">When the operator marked last.</param>
/// <param name="WantedSince">Since when it has been wanted without a gap.</param>
/// <param name="Ear">What was heard in this search.</param>
/// <param name="Noise">How restless the level is, searched or not.</param>
internal readonly record struct PeakMemory(SearchReason Wanted, TimeSpan? Since, TimeSpan? MarkedAt, TimeSpan? WantedSince, EarMemory Ear, LevelNoise Noise);

/// <summary>Why the tone of the search is wanted, weakest first.</summary>
internal enum SearchReason
{
    /// <summary>It is not.</summary>
    None = 0,

    /// <summary>The direction is known too badly.</summary>
    Peak = 1,

    /// <summary>The satellite is lost, words have led nowhere, or the operator asked.</summary>
    Search = 2,
}

/// <summary>The tone of the search: pitch says how much is missing, cadence whether it gets better.</summary>
/// <remarks>
/// <code>
/// pitch    880 Hz at the expected level, a semitone lower for each dB missing, not below 440 Hz
/// cadence  4 pulses a second: rising faster than 0.3 dB/s; 2: steady; unbroken: falling
/// tick     double, 990 Hz: 0.7 dB below the best, after a climb of 1.5 dB to it
/// </code>
/// As long as no mark has tied the scale, 880 Hz is the best of this search, but at least 12 dB above its lowest. Sounds
/// from the start of a search or of peaking, by key or by itself, until the mark, for 30 s at most; a nudge in between only
/// interrupts it, from half a second before the first of its ticks. Peaking that the operator let pass is not asked for again by sound for a minute.
/// </remarks>
internal static class PeakSearch
{
    private const double LongestSeconds = 30.0;
    private const double RestSeconds = 60.0;
    private const double MarkSeconds = 2.0;
    private const double ClearOfTicksSeconds = 3.5;
    private const double PatienceSeconds = 2.0;

    /// <param name="memory">What was remembered.</param>
    /// <param name="moment">The moment.</param>
    /// <param name="stalled">Words have led nowhere; the peak has to be found by ear.</param>
    /// <param name="arbiter">Who may sound.</param>
    public static (PeakMemory Memory, PeakTone? Tone) Next(PeakMemory memory, CueMoment moment, bool stalled, CueArbiter arbiter)
    {
        SearchReason wanted = Reason(moment, stalled);
        memory = memory with { Noise = memory.Noise.Next(moment), WantedSince = wanted == SearchReason.None ? null : memory.WantedSince ?? moment.Elapsed };
        memory = Begin(memory, wanted, moment) with { Wanted = wanted };
        bool over = wanted == SearchReason.None || moment.Elapsed - memory.Since > moment.Real(LongestSeconds);
        if (over || memory.Since is null || moment.Snapshot.Link is not { IsFresh: true, MeasuredDb: { } measured }) { return (memory, null); }

        memory = memory with { Ear = PeakEar.Next(memory.Ear, memory.Noise, measured, moment, arbiter) };
        return moment.Snapshot.Desk.Muted || arbiter.IsQuiet || moment.Aim.Word == AimWord.Move || IsTickedIn(moment) ? (memory, null) : (memory, PeakEar.Tone(memory.Ear));
    }

    /// <summary>A nudge is being counted down: its ticks must not be hidden by the tone.</summary>
    private static bool IsTickedIn(CueMoment moment) =>
        moment.Aim is { Nudge: not null, NudgeAt: { } at } && at - moment.Snapshot.Utc is var left && left > TimeSpan.Zero && left < moment.Real(ClearOfTicksSeconds);

    private static SearchReason Reason(CueMoment moment, bool stalled)
    {
        bool lost = moment.InPass && moment.Aim is { Word: AimWord.Search } or { Word: AimWord.Move, Reason: AimReason.Search };
        return moment.Aim.PeakAsked || lost || stalled ? SearchReason.Search : SearchReason.None;
    }

    private static PeakMemory Begin(PeakMemory memory, SearchReason wanted, CueMoment moment)
    {
        if (moment.Key == OperatorKey.Peaked) { return memory with { Since = null, MarkedAt = moment.Elapsed, Ear = default }; }

        // A mark that was taken ends the want; one that was not leaves it, and the search goes on.
        bool judged = !(moment.Elapsed - memory.MarkedAt < moment.Real(MarkSeconds));

        // A doubt that comes and goes within two seconds is not worth a sound; a loss or a key is.
        bool ripe = wanted == SearchReason.Search || moment.Elapsed - memory.WantedSince >= moment.Real(PatienceSeconds);
        bool first = memory.Since is null && judged && ripe;
        bool stronger = wanted > memory.Wanted && wanted == SearchReason.Search;
        bool rested = moment.Elapsed - memory.Since > moment.Real(LongestSeconds + RestSeconds);
        bool later = ripe && rested && moment.Elapsed - memory.WantedSince < moment.Real(RestSeconds);
        bool begins = moment.Key == OperatorKey.Search || first || stronger || later;
        return wanted != SearchReason.None && begins ? memory with { Since = moment.Elapsed, Ear = default } : memory;
    }
}
