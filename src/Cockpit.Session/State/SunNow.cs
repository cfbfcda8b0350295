using Cockpit.Core.Sky;
using Cockpit.Core.Units;

namespace Cockpit.Session.State;

/// <summary>The sun during a pass.</summary>
/// <param name="Now">Where it is now; null while it is down.</param>
/// <param name="FromUtc">From when the plan is nearer to it than one and a half beam widths, UTC; null when it never is.</param>
/// <param name="ToUtc">Until when, UTC; null when it never is.</param>
/// <param name="Nearest">How near the satellite comes; null when it stays away.</param>
/// <param name="Skipped">The holds that are left out for it; null when none is.</param>
public sealed record SunNow(LookAngles? Now, DateTimeOffset? FromUtc, DateTimeOffset? ToUtc, Angle? Nearest, SkippedHolds? Skipped = null)
{
    /// <summary>How long before the plan reaches it the caution comes.</summary>
    public static readonly TimeSpan Warned = TimeSpan.FromSeconds(60);

    /// <summary>Whether the plan is near the sun at an instant, or will be within <see cref="Warned"/>.</summary>
    public bool IsNear(DateTimeOffset utc) => utc >= FromUtc - Warned && utc <= ToUtc;
}
