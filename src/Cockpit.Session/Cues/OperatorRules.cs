using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Session.Cues;

/// <summary>Sounds that the operator asks for with a key: the test sound, the word of the moment again.</summary>
internal static class OperatorRules
{
    public static void Next(CueMoment moment, CueArbiter arbiter)
    {
        Cue? asked = moment.Key switch
        {
            OperatorKey.TestSound => CueTable.Test,
            OperatorKey.Again => Again(moment.Aim),
            _ => null,
        };
        if (asked is not null) { arbiter.TryStart(asked, asked: true); }
    }

    /// <summary>A move that is called is said again; in a hold the tick of "on target" says: leave it where it is.</summary>
    private static Cue? Again(AimNow aim) => aim switch
    {
        { Word: AimWord.Move, Nudge: { } nudge, Dish: { } dish, Target: { } target } =>
            MoveWord.For(nudge, aim.BeamWidth, MoveWord.IsOverhead(dish, target)),
        { Word: AimWord.Hold or AimWord.Next } => CueTable.OnTarget,
        _ => null,
    };
}
