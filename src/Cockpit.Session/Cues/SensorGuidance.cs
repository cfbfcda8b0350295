using Cockpit.Core.Aim;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Session.Cues;

/// <summary>What the guidance by sensor remembers.</summary>
/// <param name="Goal">Number of the hold that is aimed at; null before the first step with a sensor.</param>
/// <param name="On">The dish is on target.</param>
/// <param name="CrossedSince">Since when the error has been beyond the limit that ends the present zone.</param>
/// <param name="SizeB">Error, filtered 0.3 s, B.</param>
/// <param name="GrowthBPerSec">Its growth, filtered 0.3 s, B/s.</param>
/// <param name="At">Time of the last step.</param>
/// <param name="LastWord">When the last word was said.</param>
/// <param name="Rate">Words a second.</param>
/// <param name="StrivingSince">Since when words have led nowhere.</param>
/// <param name="StrivingB">The error then, B.</param>
/// <param name="StalledAt">When the words were given up.</param>
internal readonly record struct SensorMemory(
    int? Goal,
    bool On,
    TimeSpan? CrossedSince,
    double SizeB,
    double GrowthBPerSec,
    TimeSpan At,
    TimeSpan? LastWord,
    double Rate,
    TimeSpan? StrivingSince,
    double StrivingB,
    TimeSpan? StalledAt);

/// <summary>Guidance by a sensor on the dish: silent on target, words off target, silent while the dish closes in.</summary>
/// <remarks>
/// <code>
/// zone     enter                   leave                  sound
/// on       m below 0.15 B, 0.5 s   m above 0.22 B, 1 s    one tick on entry, then nothing
/// off      else                                           words, 0.7 to 3.0 a second, 0.2 s apart at least; none while m falls faster than 0.15 B/s
/// stalled  20 s of words without 0.1 B gained             5 s of silence, then the peak tone
/// </code>
/// m is the size of the move in half-power beamwidths B; 0.15 B cost 0.27 dB, 0.22 B 0.58 dB. Nothing is said while the
/// sensor is known worse than 0.2 B: raw angles with an unknown compass offset lead astray.
/// </remarks>
internal static class SensorGuidance
{
    private const double EnterB = 0.15;
    private const double LeaveB = 0.22;
    private const double EnterSeconds = 0.5;
    private const double LeaveSeconds = 1.0;
    private const double ClosingBPerSec = 0.15;
    private const double FilterSeconds = 0.3;
    private const double SilenceSeconds = 0.2;
    private const double RateChange = 0.25;
    private const double StrivingSeconds = 20.0;
    private const double StrivingGainB = 0.1;
    private const double StallSilenceSeconds = 5.0;
    private const double StallPeakSeconds = 30.0;

    /// <param name="memory">What was remembered.</param>
    /// <param name="moment">The moment.</param>
    /// <param name="calledAt">When the hold clock said a word last.</param>
    /// <param name="arbiter">Who may sound.</param>
    public static SensorMemory Next(SensorMemory memory, CueMoment moment, TimeSpan calledAt, CueArbiter arbiter)
    {
        if (Goal(moment) is not { } goal) { return default; }

        double sizeB = goal.Move.Total / moment.Aim.BeamWidth;
        memory = memory.Goal == goal.Number ? Filter(memory, sizeB, moment) : Begin(memory, goal.Number, sizeB, moment);
        if (moment.Key == OperatorKey.Peaked) { memory = memory with { StalledAt = null, StrivingSince = null }; }

        memory = Cross(memory, moment, arbiter);
        return memory.On ? memory with { StrivingSince = null, StalledAt = null } : Words(Stall(memory, moment), moment, calledAt, goal, arbiter);
    }

    /// <summary>Whether words have been given up for the peak tone.</summary>
    public static bool IsStalled(SensorMemory memory, CueMoment moment) =>
        moment.Elapsed - memory.StalledAt is { } since
        && since >= moment.Real(StallSilenceSeconds) && since < moment.Real(StallSilenceSeconds + StallPeakSeconds);

    /// <summary>The move that is wanted now: to the next hold once its nudge is called, before that to the present one.</summary>
    private static (int Number, AimError Move, Cue? Word)? Goal(CueMoment moment)
    {
        AimNow aim = moment.Aim;
        bool guided = moment.InPass && moment.HasSensor && aim.Word is AimWord.Hold or AimWord.Next or AimWord.Move;
        if (!guided || aim.Dish is not { } dish || dish.Spread / aim.BeamWidth >= HoldClock.WidestSensorSpreadB) { return null; }

        Hold? hold = aim.Word == AimWord.Move ? aim.Target : aim.Current;
        if (hold is null) { return null; }

        AimError move = AimErrors.Between(dish.Azimuth, dish.Elevation, hold.Azimuth, hold.Elevation);
        // A call and the hold of the plan may bear the same number: they are two goals.
        return (aim.Word == AimWord.Move ? hold.Number : ~hold.Number, move, MoveWord.For(move, aim.BeamWidth, aim.Mount));
    }

    private static SensorMemory Begin(SensorMemory memory, int goal, double sizeB, CueMoment moment) => new()
    {
        Goal = goal,
        On = sizeB < LeaveB,
        SizeB = sizeB,
        At = moment.Elapsed,
        LastWord = memory.LastWord,
        Rate = MoveWord.RatePerSecond(sizeB),
    };

    private static SensorMemory Filter(SensorMemory memory, double sizeB, CueMoment moment)
    {
        double seconds = (moment.Elapsed - memory.At).TotalSeconds;
        if (seconds <= 0.0) { return memory; }

        double share = 1.0 - Math.Exp(-seconds / FilterSeconds);
        double filtered = memory.SizeB + (share * (sizeB - memory.SizeB));
        double growth = (filtered - memory.SizeB) / seconds;
        return memory with
        {
            SizeB = filtered,
            GrowthBPerSec = memory.GrowthBPerSec + (share * (growth - memory.GrowthBPerSec)),
            At = moment.Elapsed,
        };
    }

    private static SensorMemory Cross(SensorMemory memory, CueMoment moment, CueArbiter arbiter)
    {
        bool beyond = memory.On ? memory.SizeB > LeaveB : memory.SizeB < EnterB;
        if (!beyond) { return memory with { CrossedSince = null }; }

        TimeSpan since = memory.CrossedSince ?? moment.Elapsed;
        if (moment.Elapsed - since < moment.Real(memory.On ? LeaveSeconds : EnterSeconds)) { return memory with { CrossedSince = since }; }

        if (!memory.On) { arbiter.TryStart(CueTable.OnTarget); }

        return memory with { On = !memory.On, CrossedSince = null, Rate = MoveWord.RatePerSecond(memory.SizeB) };
    }

    private static SensorMemory Stall(SensorMemory memory, CueMoment moment)
    {
        if (memory.StalledAt is { } stalled)
        {
            bool over = moment.Elapsed - stalled >= moment.Real(StallSilenceSeconds + StallPeakSeconds);
            return over ? memory with { StalledAt = null, StrivingSince = null } : memory;
        }

        if (memory.StrivingSince is not { } since || memory.SizeB < memory.StrivingB - StrivingGainB)
        {
            return memory with { StrivingSince = moment.Elapsed, StrivingB = memory.SizeB };
        }

        return moment.Elapsed - since >= moment.Real(StrivingSeconds) ? memory with { StalledAt = moment.Elapsed } : memory;
    }

    /// <summary>A word and the silence that keeps it apart from the next, s.</summary>
    private static double Clear(Cue word) => ((word.Tones[^1].StartMs + word.Tones[^1].LengthMs) / 1000.0) + SilenceSeconds;

    private static SensorMemory Words(SensorMemory memory, CueMoment moment, TimeSpan calledAt, (int Number, AimError Move, Cue? Word) goal, CueArbiter arbiter)
    {
        bool closing = memory.GrowthBPerSec < -ClosingBPerSec;
        if (memory.StalledAt is not null || closing || memory.SizeB < LeaveB || goal.Word is not { } word) { return memory; }

        TimeSpan last = memory.LastWord is { } said && said > calledAt ? said : calledAt;
        double between = Math.Max(1.0 / memory.Rate, Clear(word));
        bool due = last == TimeSpan.Zero || moment.Elapsed - last >= moment.Real(between);
        if (!due || !arbiter.TryStart(word)) { return memory; }

        double rate = MoveWord.RatePerSecond(memory.SizeB);
        bool changed = Math.Abs(rate - memory.Rate) > RateChange * memory.Rate;
        return memory with { LastWord = moment.Elapsed, Rate = changed ? rate : memory.Rate };
    }
}
