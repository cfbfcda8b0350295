using System.Collections.Immutable;
using Cockpit.Core.Sound;
using Cockpit.Session.State;

namespace Cockpit.Session.Handset;

/// <summary>What is remembered from one snapshot to the next for a phone.</summary>
/// <param name="Move">The move as it is shown.</param>
/// <param name="Cue">Name of the last cue; empty before the first.</param>
/// <param name="Direction">Of the last move word, also where it was said as "now".</param>
/// <param name="CueCount">How many cues there were.</param>
/// <param name="Say">The last cue as spoken.</param>
public sealed record HandsetMemory(ShownMove? Move, string Cue, string Direction, long CueCount, string Say)
{
    /// <summary>The last cue as the program's own voice sounds it.</summary>
    public ImmutableArray<Tone> Tones { get; init; } = [];

    /// <summary>Nothing yet.</summary>
    public static HandsetMemory Empty { get; } = new(null, "", "", 0, "");
}
