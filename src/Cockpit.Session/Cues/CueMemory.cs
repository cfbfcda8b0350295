namespace Cockpit.Session.Cues;

/// <summary>What the cues remember from step to step; immutable, part of the state of the session.</summary>
public sealed record CueMemory
{
    private CueMemory()
    {
    }

    /// <summary>The memory before the first event.</summary>
    public static CueMemory Start { get; } = new();

    internal FloorMemory Floor { get; init; }

    internal HoldClockMemory HoldClock { get; init; }
}
