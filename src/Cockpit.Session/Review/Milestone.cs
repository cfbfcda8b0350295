namespace Cockpit.Session.Review;

/// <summary>What a replay can jump to.</summary>
public enum MilestoneKind
{
    /// <summary>The operator marked: peaked, moved, not moved.</summary>
    Mark = 0,

    /// <summary>A nudge was called.</summary>
    Nudge = 1,

    /// <summary>A run of lost lines begins.</summary>
    Gap = 2,

    /// <summary>A warning or a caution sounded.</summary>
    Alarm = 3,
}

/// <summary>A moment of a session that is worth a look.</summary>
/// <param name="At">When, session time.</param>
/// <param name="Until">When it ends, session time; the same as <paramref name="At"/> for what has no length.</param>
/// <param name="Kind">What it is.</param>
/// <param name="Text">The same in a few words.</param>
public sealed record Milestone(TimeSpan At, TimeSpan Until, MilestoneKind Kind, string Text);
