using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Session.Cues;

/// <summary>What one alarm remembers; the default is an alarm that is armed.</summary>
/// <param name="Times">How often it sounded for this fault.</param>
/// <param name="LastSounded">When it did last.</param>
/// <param name="Seen">The operator has seen it.</param>
/// <param name="GoodSince">Since when the fault has been away.</param>
internal readonly record struct AlarmMemory(int Times, TimeSpan LastSounded, bool Seen, TimeSpan? GoodSince)
{
    /// <summary>It sounded, lasts, and nobody has said that it was seen.</summary>
    public bool IsUnseen => Times > 0 && !Seen && GoodSince is null;
}

/// <summary>Sounds at the start of a fault, again every 10 s until seen, over or often enough; armed again after 5 s without the fault.</summary>
/// <remarks>
/// An alarm that cries wolf is not answered: people answer at about the rate at which an alarm has been true (J. Bliss,
/// thesis, 1993). Hence the limit, and the 5 s that make one fault of a flutter.
/// </remarks>
internal static class Alarm
{
    /// <summary>No limit: sounds until it is seen or over.</summary>
    public const int UntilSeen = int.MaxValue;

    /// <summary>A caution sounds this often, then stays on the screen.</summary>
    public const int ThreeTimes = 3;

    /// <summary>A caution that says what is done about it already.</summary>
    public const int Twice = 2;

    private const double RepeatSeconds = 10.0;
    private const double RearmSeconds = 5.0;

    public static AlarmMemory Next(AlarmMemory memory, bool wrong, int mostTimes, Func<Cue> cue, CueMoment moment, CueArbiter arbiter)
    {
        if (!wrong) { return Good(memory, moment); }

        bool seen = memory.Seen || (memory.Times > 0 && moment.Key == OperatorKey.Acknowledge);
        memory = memory with { GoodSince = null, Seen = seen };
        bool due = memory.Times == 0 || moment.Elapsed - memory.LastSounded >= moment.Real(RepeatSeconds);
        if (seen || !due || memory.Times >= mostTimes || !arbiter.TryStart(cue())) { return memory; }

        return memory with { Times = memory.Times + 1, LastSounded = moment.Elapsed };
    }

    private static AlarmMemory Good(AlarmMemory memory, CueMoment moment)
    {
        if (memory.Times == 0) { return default; }

        TimeSpan since = memory.GoodSince ?? moment.Elapsed;
        return moment.Elapsed - since >= moment.Real(RearmSeconds) ? default : memory with { GoodSince = since };
    }
}
