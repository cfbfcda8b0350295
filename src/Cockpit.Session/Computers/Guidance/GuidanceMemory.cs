using Cockpit.Core.Aim;

namespace Cockpit.Session.Computers.Guidance;

/// <summary>What the guidance remembers between events.</summary>
public sealed record GuidanceMemory
{
    /// <summary>Nothing asked for yet.</summary>
    public static GuidanceMemory Empty { get; } = new();

    /// <summary>The span in which the satellite stays within the allowed cap of the believed direction.</summary>
    public Hold? Current { get; init; }

    /// <summary>The one before the last nudge.</summary>
    public Hold? Before { get; init; }

    /// <summary>Where the next nudge leads; null after the last.</summary>
    public Hold? Target { get; init; }

    /// <summary>When that nudge is called, UTC: a place on the orbit; null after the last.</summary>
    public DateTimeOffset? NudgeAt { get; init; }

    /// <summary>When it was called, session time; null while it has not been.</summary>
    public TimeSpan? CalledAt { get; init; }

    /// <summary>Number of the last change of the belief that was planned on.</summary>
    public int Planned { get; init; }

    /// <summary>Since when peaking has been asked of the hand, session time; null when it is not.</summary>
    public TimeSpan? PeakSince { get; init; }

    /// <summary>Since when the operator has asked for it by key, session time; null when not.</summary>
    public TimeSpan? PeakAskedAt { get; init; }
}
