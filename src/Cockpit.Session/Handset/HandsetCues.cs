using Cockpit.Session.Cues;
using Cockpit.Session.State;

namespace Cockpit.Session.Handset;

/// <summary>The cues of the voice as a phone plays and vibrates them.</summary>
internal static class HandsetCues
{
    /// <summary>Counts the cues that start with a snapshot; of several the last counts.</summary>
    public static HandsetMemory Next(HandsetMemory memory, CuePlan plan)
    {
        foreach (Cue cue in plan.Started)
        {
            string direction = cue.Meaning is { } meaning ? DirectionOf(meaning) : "";
            string name = cue.Meaning is { Pressing: true } && string.Equals(direction, memory.Direction, StringComparison.Ordinal) ? "now" : NameOf(cue.Kind, direction);
            if (name.Length > 0)
            {
                memory = memory with
                {
                    Cue = name,
                    Direction = direction.Length > 0 ? direction : memory.Direction,
                    CueCount = memory.CueCount + 1,
                    Tones = cue.Tones,
                    Say = string.Join(' ', SpokenCue.Clips(cue)),
                };
            }
        }

        return memory;
    }

    /// <summary>The side before the height, as the voice says it.</summary>
    private static string DirectionOf(MoveMeaning meaning) => meaning switch
    {
        { Side: < 0 } => "left",
        { Side: > 0 } => "right",
        { Height: > 0 } => "up",
        _ => "down",
    };

    private static string NameOf(CueKind kind, string direction) => kind switch
    {
        CueKind.MoveWord => direction,
        CueKind.ClockTick => "count",
        CueKind.OnTarget or CueKind.PeakPassed => "on",
        CueKind.Caution => "caution",
        CueKind.Warning => "alarm",
        _ => "",
    };
}
