using Cockpit.Session.Review;

namespace Cockpit.Screen.Panels;

/// <summary>What the moments of a replay are called.</summary>
public static class TimelineWords
{
    /// <summary>A kind in the plural; null = all of them.</summary>
    public static string Plural(MilestoneKind? kind) => kind switch
    {
        MilestoneKind.Mark => "marks",
        MilestoneKind.Nudge => "nudges",
        MilestoneKind.Gap => "gaps",
        MilestoneKind.Alarm => "alarms",
        _ => "all",
    };
}
