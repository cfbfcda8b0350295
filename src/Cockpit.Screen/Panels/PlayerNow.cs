using System.Collections.Immutable;
using Cockpit.Session.Review;

namespace Cockpit.Screen.Panels;

/// <summary>Where the player of a replay is.</summary>
/// <param name="Rate">Session time per real time; 1 = as it was.</param>
/// <param name="Paused">It stands still.</param>
/// <param name="Position">Elapsed session time.</param>
/// <param name="Length">Elapsed session time of the last event.</param>
/// <param name="Stops">What it can jump to, in order of time; null while that is not known yet.</param>
/// <param name="Only">It jumps to this kind only; null = to all.</param>
public readonly record struct PlayerNow(
    double Rate, bool Paused, TimeSpan Position, TimeSpan Length, ImmutableArray<Milestone>? Stops = null, MilestoneKind? Only = null);
