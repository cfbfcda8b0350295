namespace Cockpit.Session.Computers.Guidance;

/// <summary>Numbers of the guidance; design values. Spans are real time.</summary>
internal static class GuidanceLimits
{
    /// <summary>The next move is announced this long before its call.</summary>
    public static readonly TimeSpan NoticeBefore = TimeSpan.FromSeconds(6);

    /// <summary>"Moved" within this time of a call is no second move.</summary>
    public static readonly TimeSpan ConfirmWithin = TimeSpan.FromSeconds(6);

    /// <summary>A search for the peak that was asked for by key ends after this.</summary>
    public static readonly TimeSpan PeakAskedFor = TimeSpan.FromSeconds(30);

    /// <summary>How long a notice stays.</summary>
    public static readonly TimeSpan NoticeFor = TimeSpan.FromSeconds(8);

    /// <summary>A turn of the pan is big from here on, degrees: several times an ordinary nudge.</summary>
    public const double BigTurnDegrees = 30.0;

    /// <summary>Elevation from which a turn of the pan may become big, degrees.</summary>
    public const double OverheadDegrees = 70.0;
}
