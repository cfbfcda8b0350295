using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Session.Cues;

/// <summary>An answer that waits for the floor.</summary>
/// <param name="Waiting">The answer; null when none waits.</param>
/// <param name="Since">Since when.</param>
internal readonly record struct AnswerMemory(Cue? Waiting, TimeSpan Since);

/// <summary>The short answer to each key: taken, as what, or refused; the test sound and the word of the moment again.</summary>
/// <remarks>An answer never cuts a word: it waits for its end, two seconds at most. Only the answer to the last key is given.</remarks>
internal static class OperatorRules
{
    private const double LongestWaitSeconds = 2.0;

    public static AnswerMemory Next(AnswerMemory memory, CueMoment moment, CueArbiter arbiter)
    {
        memory = moment.Snapshot.Answer is { } answer ? new AnswerMemory(Of(answer, moment), moment.Elapsed) : memory;
        if (memory.Waiting is not { } cue) { return memory; }

        bool late = moment.Elapsed - memory.Since > moment.Real(LongestWaitSeconds);
        return late || arbiter.TryStart(cue, asked: true) ? default : memory;
    }

    private static Cue Of(KeyAnswer answer, CueMoment moment) => answer switch
    {
        { Taken: false } => CueTable.Refused(answer.Words),
        { Key: OperatorKey.TestSound } => CueTable.Test,
        { Key: OperatorKey.Again } => Again(moment.Aim),
        { Key: OperatorKey.Peaked } => CueTable.Best,
        { Key: OperatorKey.Acknowledge } => CueTable.Seen,
        _ => CueTable.Moved,
    };

    /// <summary>A move that is called is said again; in a hold the tick of "on target" says: leave it where it is.</summary>
    private static Cue Again(AimNow aim) =>
        aim is { Word: AimWord.Move, Nudge: { } nudge } ? MoveWord.For(nudge, aim.BeamWidth, aim.Mount) ?? CueTable.OnTarget : CueTable.OnTarget;
}
