using Cockpit.Core.Aim;
using Cockpit.Core.Units;

namespace Cockpit.Session.State;

/// <summary>Where the dish is believed to be and where it must go.</summary>
/// <param name="Word">The one word of the moment.</param>
/// <param name="Dish">Believed direction with spread; null when nothing is known.</param>
/// <param name="Error">Move to the satellite now (not the cue); null when the dish is unknown.</param>
/// <param name="Nudge">Move that the cue calls: from the dish to the centre of the target hold; null when unknown.</param>
/// <param name="Target">The hold that the nudge leads to (the first before the pass); null after the last.</param>
/// <param name="Current">The hold that the dish is meant to be in now; null before the first.</param>
/// <param name="NudgeAt">When the next nudge is called, UTC; null after the last.</param>
/// <param name="SinceMark">Time since the last "peaked"; null without one.</param>
/// <param name="BeamWidth">Half-power beamwidth of this dish.</param>
/// <param name="PointingLoss">Believed loss now; null when the dish is unknown.</param>
/// <param name="PeakAsked">The operator asked by key for the search for the peak, and it goes on.</param>
public sealed record AimNow(
    AimWord Word,
    Pointing? Dish,
    AimError? Error,
    AimError? Nudge,
    Hold? Target,
    Hold? Current,
    DateTimeOffset? NudgeAt,
    TimeSpan? SinceMark,
    Angle BeamWidth,
    Decibels? PointingLoss,
    bool PeakAsked = false);

/// <summary>What the operator should do with the dish.</summary>
public enum AimWord
{
    /// <summary>Before the pass: set up towards the first hold.</summary>
    Point = 0,

    /// <summary>Do nothing; the satellite is in the beam.</summary>
    Hold = 1,

    /// <summary>The next nudge is near: get ready.</summary>
    Next = 2,

    /// <summary>Move now.</summary>
    Move = 3,

    /// <summary>Nobody knows where the dish is: sweep and find the signal.</summary>
    Search = 4,

    /// <summary>The knowledge is old: make small moves, find the best, press "peaked".</summary>
    Peak = 5,

    /// <summary>The pass is over.</summary>
    Done = 6,
}
