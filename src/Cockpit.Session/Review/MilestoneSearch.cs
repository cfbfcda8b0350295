using System.Collections.Immutable;

namespace Cockpit.Session.Review;

/// <summary>The next milestone on either side of a moment.</summary>
public static class MilestoneSearch
{
    /// <summary>While a replay runs, one that was just passed counts as here: else "back" would never leave it.</summary>
    public static TimeSpan JustPassed { get; } = TimeSpan.FromSeconds(1.5);

    private static readonly TimeSpan Here = TimeSpan.FromMilliseconds(1);

    /// <summary>The first one after a moment.</summary>
    /// <param name="milestones">In order of time.</param>
    /// <param name="position">Session time.</param>
    /// <param name="only">Of this kind; null = any.</param>
    public static Milestone? After(ImmutableArray<Milestone> milestones, TimeSpan position, MilestoneKind? only) =>
        milestones.FirstOrDefault(milestone => milestone.At > position + Here && (only ?? milestone.Kind) == milestone.Kind);

    /// <summary>The last one before a moment.</summary>
    /// <param name="milestones">In order of time.</param>
    /// <param name="position">Session time.</param>
    /// <param name="only">Of this kind; null = any.</param>
    /// <param name="running">The position moves on by itself.</param>
    public static Milestone? Before(ImmutableArray<Milestone> milestones, TimeSpan position, MilestoneKind? only, bool running) =>
        milestones.LastOrDefault(milestone => milestone.At < position - (running ? JustPassed : Here) && (only ?? milestone.Kind) == milestone.Kind);
}
