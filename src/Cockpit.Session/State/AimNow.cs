using Cockpit.Core.Aim;
using Cockpit.Core.Units;

namespace Cockpit.Session.State;

/// <summary>Where the dish is believed to be and where it must go.</summary>
/// <param name="Word">The one word of the moment.</param>
/// <param name="Reason">Why.</param>
/// <param name="Dish">Believed direction with its spread; null without a pass and after it. During a call it is the direction that the call counts from.</param>
/// <param name="Region">The shape of that belief; null before the satellite rises above the level horizon, and after the pass.</param>
/// <param name="Error">Move to the satellite now (not the cue); null outside the pass.</param>
/// <param name="Nudge">With MOVE the move to make now, else the one to come: from <paramref name="Dish"/> to <paramref name="Target"/>; null when none is seen before the end.</param>
/// <param name="Mount">In which of its two pairs of amounts the hand moves: pan and tilt, or right and up.</param>
/// <param name="Target">Where the nudge leads; before the pass where to set up; null when no move is seen before the end.</param>
/// <param name="Current">Where the dish stands, and until when; null before the pass.</param>
/// <param name="NudgeAt">When the nudge is called, UTC: with MOVE when it was called, the same as long as the call lasts; null when none is seen before the end.</param>
/// <param name="Compass">The call is to set the dish by compass and inclinometer to this; null for a plain nudge.</param>
/// <param name="SinceMark">Time since the last "peaked"; null without one.</param>
/// <param name="BeamWidth">Half-power beamwidth of this dish.</param>
/// <param name="PointingLoss">Believed loss now; null outside the pass.</param>
/// <param name="InBeam">Probability that the satellite is within the half-power beam; null outside the pass.</param>
/// <param name="Missing">How far the level is under that of a well-pointed dish; null without a level.</param>
/// <param name="Fine">Second line for a hand that trims: the best level of late and the level now; null without a level.</param>
/// <param name="ByPlan">No level comes, so the plan leads; null while the level does.</param>
/// <param name="Overhead">The big turn of the pan that lies ahead; null when there is none.</param>
/// <param name="PeakAsked">The operator asked by key for the search for the peak, and it goes on.</param>
public sealed record AimNow(
    AimWord Word,
    AimReason Reason,
    Pointing? Dish,
    BeliefRegion? Region,
    AimError? Error,
    AimError? Nudge,
    Mount Mount,
    Hold? Target,
    Hold? Current,
    DateTimeOffset? NudgeAt,
    CompassReading? Compass,
    TimeSpan? SinceMark,
    Angle BeamWidth,
    Decibels? PointingLoss,
    double? InBeam,
    Decibels? Missing,
    PeakNote? Fine,
    ByPlan? ByPlan,
    BigTurn? Overhead,
    bool PeakAsked = false);

/// <summary>What the operator should do with the dish.</summary>
public enum AimWord
{
    /// <summary>Before the pass: set up towards its begin.</summary>
    Point = 0,

    /// <summary>Do nothing; the satellite is in the beam.</summary>
    Hold = 1,

    /// <summary>The next nudge is near: get ready.</summary>
    Next = 2,

    /// <summary>Move now.</summary>
    Move = 3,

    /// <summary>The signal is lost: the coming nudges go over the most probable places.</summary>
    Search = 4,

    /// <summary>The pass is over.</summary>
    Done = 6,
}

/// <summary>Why the word is what it is.</summary>
public enum AimReason
{
    /// <summary>Before the pass.</summary>
    SetUp = 0,

    /// <summary>The satellite stays in the beam to the end.</summary>
    InBeam = 1,

    /// <summary>The satellite moves on.</summary>
    Follow = 2,

    /// <summary>The level says that the dish is beside the satellite.</summary>
    Correct = 3,

    /// <summary>A small move tells on which side the satellite is.</summary>
    Probe = 4,

    /// <summary>The signal is lost: the most probable place.</summary>
    Search = 5,

    /// <summary>No level comes: by plan.</summary>
    Plan = 6,

    /// <summary>The pass is over.</summary>
    Over = 7,

    /// <summary>The sun is in the way: around it.</summary>
    Sun = 8,
}

/// <summary>The reasons in a few words.</summary>
public static class AimReasons
{
    /// <summary>The reason as it is said.</summary>
    public static string Words(this AimReason reason) => reason switch
    {
        AimReason.SetUp => "set up for the start",
        AimReason.InBeam => "in the beam to the end",
        AimReason.Follow => "the satellite moves on",
        AimReason.Correct => "the level says beside it",
        AimReason.Probe => "to tell the side",
        AimReason.Search => "lost: the most probable place",
        AimReason.Plan => "by plan, no signal",
        AimReason.Sun => "around the sun, by plan",
        _ => "the pass is over",
    };
}

/// <summary>The shape of the belief about the dish, seen from behind it.</summary>
/// <param name="Major">Standard deviation along the longer axis.</param>
/// <param name="Minor">The same along the shorter one.</param>
/// <param name="Tilt">Direction of the longer axis, from "right" towards "up", -90° to 90°.</param>
/// <param name="R50">The dish is within this angle of the believed direction with a probability of 50 %.</param>
/// <param name="R95">The same with 95 %.</param>
public sealed record BeliefRegion(Angle Major, Angle Minor, Angle Tilt, Angle R50, Angle R95);

/// <summary>A direction to read off compass and inclinometer.</summary>
/// <param name="Azimuth">True azimuth that the compass is to show, its probable error taken off.</param>
/// <param name="Elevation">Elevation that the inclinometer is to show.</param>
public sealed record CompassReading(Angle Azimuth, Angle Elevation);

/// <summary>How good the level was and is.</summary>
/// <param name="BestDb">The best of the last half minute, dB.</param>
/// <param name="NowDb">The level now, dB.</param>
public sealed record PeakNote(double BestDb, double NowDb);

/// <summary>The plan leads because no level comes.</summary>
/// <param name="SilentFor">Real time since the last level; null when none ever came.</param>
public sealed record ByPlan(TimeSpan? SilentFor);

/// <summary>A turn of the pan overhead, by the way that is expected to lose the fewest lines.</summary>
/// <param name="AtUtc">When the pan turns, or the tilt goes over the top, UTC.</param>
/// <param name="Way">The way chosen.</param>
/// <param name="Pan">How far the pan turns, positive = right.</param>
/// <param name="Tilt">How far the tilt moves with it, positive = up; over the top from side to side.</param>
/// <param name="TurnLines">Picture lines expected to be lost about the culmination by turning at it.</param>
/// <param name="WaitLines">The same by standing through it and turning later.</param>
/// <param name="OverLines">The same over the top; null for a head that cannot.</param>
public sealed record BigTurn(DateTimeOffset AtUtc, OverheadWay Way, Angle Pan, Angle Tilt, double TurnLines, double WaitLines, double? OverLines);
