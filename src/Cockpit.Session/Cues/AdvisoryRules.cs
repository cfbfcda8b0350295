using Cockpit.Session.State;

namespace Cockpit.Session.Cues;

/// <summary>What the advisories remember.</summary>
/// <param name="Aos">Rise of the pass that they belong to.</param>
/// <param name="ToRise">Seconds to the rise at the step before.</param>
/// <param name="ToEnd">Seconds to the end at the step before.</param>
/// <param name="Said">Which were said: 1 rise in 60, 2 rise in 10, 4 end in 60, 8 big turn ahead.</param>
/// <param name="ToTurn">Seconds to the big turn overhead at the step before; null without one.</param>
/// <param name="LastLock">When there was lock last; the first step before that.</param>
internal readonly record struct AdvisoryMemory(DateTimeOffset? Aos, double ToRise, double ToEnd, int Said, TimeSpan? LastLock, double? ToTurn);

/// <summary>Rise in 60 s and in 10 s, end in 60 s, the big turn overhead in two minutes, lock gained: once each, dropped when something else sounds.</summary>
/// <remarks>Only what happens while the program looks on is announced: a start in the middle of a pass is silent.</remarks>
internal static class AdvisoryRules
{
    private const double JumpSeconds = 5.0;
    private const double TurnSeconds = 120.0;
    private const double WithoutLockSeconds = 5.0;
    private static readonly TimeSpan OtherPass = TimeSpan.FromMinutes(5);

    public static AdvisoryMemory Next(AdvisoryMemory memory, CueMoment moment, CueArbiter arbiter) =>
        Lock(Phases(memory, moment, arbiter), moment, arbiter);

    private static AdvisoryMemory Phases(AdvisoryMemory memory, CueMoment moment, CueArbiter arbiter)
    {
        if (moment.Snapshot.Sky is not { Pass: { } pass }) { return memory with { Aos = null }; }

        double toRise = (pass.Aos.Utc - moment.Snapshot.Utc).TotalSeconds;
        double toEnd = (pass.Los.Utc - moment.Snapshot.Utc).TotalSeconds;
        bool same = memory.Aos is { } aos && (aos - pass.Aos.Utc).Duration() < OtherPass;
        int said = same ? memory.Said : 0;
        double? toTurn = (moment.Aim.Overhead?.AtUtc - moment.Snapshot.Utc)?.TotalSeconds;
        if (same)
        {
            double jump = moment.Real(JumpSeconds).TotalSeconds;
            said = Say(said, 1, Crossed(memory.ToRise, toRise, 60.0, jump), CueTable.RiseIn60, arbiter);
            said = Say(said, 2, Crossed(memory.ToRise, toRise, 10.0, jump), CueTable.RiseIn10, arbiter);
            said = Say(said, 4, Crossed(memory.ToEnd, toEnd, 60.0, jump) && !pass.CutAtEnd, CueTable.EndIn60, arbiter);
            said = Say(said, 8, toTurn is { } turn && Crossed(memory.ToTurn ?? turn, turn, TurnSeconds, jump), CueTable.BigTurn, arbiter);
        }

        return memory with { Aos = pass.Aos.Utc, ToRise = toRise, ToEnd = toEnd, Said = said, ToTurn = toTurn };
    }

    private static bool Crossed(double before, double now, double mark, double jump) => before > mark && now <= mark && before - now < jump;

    private static int Say(int said, int bit, bool due, Cue cue, CueArbiter arbiter)
    {
        if (!due || (said & bit) != 0) { return said; }

        arbiter.TryStart(cue);
        return said | bit;
    }

    private static AdvisoryMemory Lock(AdvisoryMemory memory, CueMoment moment, CueArbiter arbiter)
    {
        TimeSpan last = memory.LastLock ?? moment.Elapsed;
        bool locked = moment.Snapshot.Link.IsLocked;
        if (locked && moment.InPass && moment.Elapsed - last >= moment.Real(WithoutLockSeconds)) { arbiter.TryStart(CueTable.LockGained); }

        return memory with { LastLock = locked ? moment.Elapsed : last };
    }
}
