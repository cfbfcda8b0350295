namespace Cockpit.Session.Computers.Guidance;

/// <summary>Numbers of the guidance; design values, tried on a simulated hand. Spans are real time.</summary>
internal static class GuidanceLimits
{
    /// <summary>The hold that a nudge leads to begins this long after the call: reaction and hand.</summary>
    public static readonly TimeSpan HandTime = TimeSpan.FromSeconds(1.5);

    /// <summary>The next nudge is announced this long before its call.</summary>
    public static readonly TimeSpan NoticeBefore = TimeSpan.FromSeconds(6);

    /// <summary>A nudge that is called later than this is planned again from now.</summary>
    public static readonly TimeSpan PlanHolds = TimeSpan.FromSeconds(0.5);

    /// <summary>Peaking asked for by key ends after this.</summary>
    public static readonly TimeSpan PeakAskedFor = TimeSpan.FromSeconds(30);

    /// <summary>While peaking is asked for, nudges are not called for this long: two commands at once are none.</summary>
    public static readonly TimeSpan PeakAlone = TimeSpan.FromSeconds(8);
}
