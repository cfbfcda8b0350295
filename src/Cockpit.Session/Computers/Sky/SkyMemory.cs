using Cockpit.Session.Events;

namespace Cockpit.Session.Computers.Sky;

/// <summary>What the sky remembers between events.</summary>
/// <param name="Settings">What the session is about; null before it is opened.</param>
/// <param name="Plan">The pass and what was worked out for it; null when there is none.</param>
public sealed record SkyMemory(SessionSettings? Settings, SkyPlan? Plan)
{
    /// <summary>No session yet.</summary>
    public static SkyMemory Empty { get; } = new(null, null);
}
