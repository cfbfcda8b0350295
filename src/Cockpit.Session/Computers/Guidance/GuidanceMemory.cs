using Cockpit.Core.Steering;
using Cockpit.Session.State;

namespace Cockpit.Session.Computers.Guidance;

/// <summary>What the guidance remembers between events; all times are session time.</summary>
public sealed record GuidanceMemory
{
    /// <summary>Nothing asked for yet.</summary>
    public static GuidanceMemory Empty { get; } = new();

    /// <summary>Who decides about the moves; null without a pass. Changes in place, together with the belief that it reads.</summary>
    public Steersman? Steersman { get; init; }

    /// <summary>The turn overhead that this pass asks for, and the way chosen; null when there is none.</summary>
    public BigTurn? Overhead { get; init; }

    /// <summary>When a move was last called, or confirmed by key.</summary>
    public TimeSpan? AskedAt { get; init; }

    /// <summary>Since when the operator has asked for the search for the peak, session time; null when not.</summary>
    public TimeSpan? PeakAskedAt { get; init; }

    /// <summary>An answer to the operator; null when there is none.</summary>
    public Message? Notice { get; init; }

    /// <summary>When it was given.</summary>
    public TimeSpan NoticeAt { get; init; }
}
