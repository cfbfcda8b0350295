using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Session.Cues;

/// <summary>What the hold clock remembers.</summary>
/// <param name="Hold">Number of the hold that the nudge leads to.</param>
/// <param name="LastTick">The last tick that sounded: 3, 2, 1 seconds before; 0 none yet.</param>
/// <param name="DueSince">Since when the nudge is due.</param>
/// <param name="Words">How often the word was said.</param>
/// <param name="LastWord">When it was said last.</param>
/// <param name="LeftOut">Nudges that were called without a word, because the hands or another cue had the floor.</param>
internal readonly record struct HoldClockMemory(int? Hold, int LastTick, TimeSpan? DueSince, int Words, TimeSpan LastWord, int LeftOut);

/// <summary>Calls the nudges of the hold plan: ticks 3, 2, 1 s before, then the word; the word once more after 4 s without a key.</summary>
/// <remarks>
/// <code>
/// sound   pitch    length  when
/// tick    660 Hz   30 ms   3, 2, 1 s before the nudge is called
/// word    see MoveWord     at the call, pressing where more than 3 dB are lost or the dish is searching; once more, pressing, after 4 s without a key; then the screen only
/// </code>
/// Silent for moves below 0.1 B, with a sensor while it is not known to 0.2 B, and for 2 s after a word or the "moved" key.
/// </remarks>
internal static class HoldClock
{
    /// <summary>A wider spread than this makes a word a guess, B.</summary>
    public const double WidestSpreadB = 0.4;

    /// <summary>The same with a sensor: an offset of the compass that is not known leads astray at once, B.</summary>
    public const double WidestSensorSpreadB = 0.2;

    /// <summary>A smaller move than this is not worth a sound, B.</summary>
    public const double SmallestMoveB = MoveWord.DeadB;

    /// <summary>How long the hands are left alone after a nudge, s.</summary>
    public const double HandsSeconds = 2.0;

    private const double PressingLossDb = 3.0;   // the edge of the half-power beam: from here on lines go
    private const double RepeatSeconds = 4.0;
    private const double StaleSeconds = 2.0;
    private const double TickWindowSeconds = 0.25;
    private const double FastestTicked = 2.0;   // seconds of the session in one of the listener: beyond that ticks say nothing

    public static HoldClockMemory Next(HoldClockMemory memory, CueMoment moment, CueArbiter arbiter)
    {
        memory = Keys(memory, moment, arbiter);
        if (Call(moment) is not { } call) { return memory; }

        if (memory.Hold != call.Hold) { memory = new HoldClockMemory { Hold = call.Hold, LeftOut = memory.LeftOut + (memory is { DueSince: not null, Words: 0 } ? 1 : 0) }; }

        return call.SecondsLeft > 0.0 ? Ticks(memory, call, moment, arbiter) : Words(memory, call, moment, arbiter);
    }

    private static HoldClockMemory Keys(HoldClockMemory memory, CueMoment moment, CueArbiter arbiter)
    {
        switch (moment.Key)
        {
            case OperatorKey.Moved:
                if (!moment.HasSensor) { arbiter.Quiet(HandsSeconds); }

                return memory with { Words = 2 };
            case OperatorKey.NotMoved:
                return memory with { Words = 1, LastWord = moment.Elapsed };
            case OperatorKey.Peaked:
                return new HoldClockMemory { LeftOut = memory.LeftOut };
            default:
                return memory;
        }
    }

    private static NudgeCall? Call(CueMoment moment)
    {
        AimNow aim = moment.Aim;
        bool calling = moment.NearPass && aim.Word is AimWord.Hold or AimWord.Next or AimWord.Move or AimWord.Search;
        if (!calling || aim is not { Dish: { } dish, Nudge: { } nudge, Target: { } target, NudgeAt: { } at }) { return null; }

        bool blurred = moment.HasSensor && dish.Spread / aim.BeamWidth >= WidestSensorSpreadB;
        if (blurred || nudge.Total / aim.BeamWidth < SmallestMoveB) { return null; }

        return MoveWord.For(nudge, aim.BeamWidth, aim.Mount, aim.Reason == AimReason.Search || aim.PointingLoss?.Value > PressingLossDb) is { } word
            ? new NudgeCall(target.Number, (at - moment.Snapshot.Utc).TotalSeconds, word, () => MoveWord.For(nudge, aim.BeamWidth, aim.Mount, pressing: true) ?? word)
            : null;
    }

    private static HoldClockMemory Ticks(HoldClockMemory memory, NudgeCall call, CueMoment moment, CueArbiter arbiter)
    {
        int second = (int)Math.Ceiling(call.SecondsLeft);
        bool due = second <= 3 && (memory.LastTick == 0 || second < memory.LastTick) && second - call.SecondsLeft < TickWindowSeconds;
        if (!due || moment.Real(1.0).TotalSeconds > FastestTicked) { return memory; }

        arbiter.TryStart(CueTable.ClockTick(second));
        return memory with { LastTick = second };
    }

    private static HoldClockMemory Words(HoldClockMemory memory, NudgeCall call, CueMoment moment, CueArbiter arbiter)
    {
        memory = memory with { DueSince = memory.DueSince ?? moment.Elapsed };
        bool first = memory.Words == 0 && moment.Elapsed - memory.DueSince < moment.Real(StaleSeconds);
        bool waiting = memory.Words == 1 && moment.Aim.Word == AimWord.Move && !moment.HasSensor;
        bool again = waiting && moment.Elapsed - memory.LastWord >= moment.Real(RepeatSeconds);
        if (!(first || again) || !arbiter.TryStart(again ? call.Again() : call.Word)) { return memory; }

        if (!moment.HasSensor) { arbiter.Quiet(HandsSeconds); }

        return memory with { Words = memory.Words + 1, LastWord = moment.Elapsed };
    }

    /// <param name="Hold">Number of the hold that it leads to.</param>
    /// <param name="SecondsLeft">Seconds until it is called.</param>
    /// <param name="Word">Its word.</param>
    /// <param name="Again">The same, for the second time: nobody has followed, so it presses.</param>
    private readonly record struct NudgeCall(int Hold, double SecondsLeft, Cue Word, Func<Cue> Again);
}
