using System.Collections.Immutable;
using Cockpit.Core.Aim;
using Cockpit.Core.Passes;
using Cockpit.Core.Sky;

namespace Cockpit.Session.State;

/// <summary>Where the satellite is and how the pass goes.</summary>
/// <param name="Pass">The pass of this session.</param>
/// <param name="Now">Look angles now; null where the orbit model has no answer.</param>
/// <param name="Phase">Phase of the pass.</param>
/// <param name="ToNext">Time to the next of AOS, TCA, LOS; zero after LOS.</param>
/// <param name="ElementAge">Age of the elements now; negative when the epoch lies ahead.</param>
/// <param name="AlongTrackErrorKm">What that age usually means along the track, km (high end of the usual, at least 1 km; common practice).</param>
/// <param name="Track">The pass sampled evenly from AOS to LOS, for the sky plot.</param>
/// <param name="Ahead">Look angles 10, 20, 30 s ahead.</param>
/// <param name="Holds">The hold plan of the pass.</param>
/// <param name="Sun">The sun during the pass; null where the station is not known.</param>
public sealed record SkyNow(
    Pass Pass,
    LookAngles? Now,
    PassPhase Phase,
    TimeSpan ToNext,
    TimeSpan ElementAge,
    double AlongTrackErrorKm,
    ImmutableArray<PassMoment> Track,
    ImmutableArray<LookAngles> Ahead,
    ImmutableArray<Hold> Holds,
    SunNow? Sun = null);

/// <summary>Phase of the pass.</summary>
public enum PassPhase
{
    /// <summary>More than 60 s before AOS.</summary>
    Waiting = 0,

    /// <summary>The last 60 s before AOS.</summary>
    Ready = 1,

    /// <summary>Between AOS and TCA.</summary>
    Climbing = 2,

    /// <summary>Between TCA and LOS.</summary>
    Sinking = 3,

    /// <summary>After LOS.</summary>
    Over = 4,
}
