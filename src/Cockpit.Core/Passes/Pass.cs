using Cockpit.Core.Sky;

namespace Cockpit.Core.Passes;

/// <summary>One moment of a pass.</summary>
/// <param name="Utc">The instant, UTC.</param>
/// <param name="Look">Look angles then.</param>
public readonly record struct PassMoment(DateTimeOffset Utc, LookAngles Look);

/// <summary>One pass of one satellite above the mask of one station.</summary>
/// <param name="Aos">Rise above the mask; where the pass was running already, the start of the search.</param>
/// <param name="Tca">Culmination: the highest elevation.</param>
/// <param name="Los">Set below the mask; where the pass goes on, the end of the search.</param>
/// <param name="CutAtStart">The pass was running when the search began.</param>
/// <param name="CutAtEnd">The pass was still running when the search ended.</param>
public sealed record Pass(PassMoment Aos, PassMoment Tca, PassMoment Los, bool CutAtStart = false, bool CutAtEnd = false)
{
    /// <summary>Time above the mask.</summary>
    public TimeSpan Duration => Los.Utc - Aos.Utc;
}
