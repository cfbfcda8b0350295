using System.Collections.Immutable;
using Cockpit.Core.Aim;
using Cockpit.Core.Link;
using Cockpit.Core.Passes;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Session.Review;

/// <summary>What a review keeps of a session, reduced to half seconds and to what happened.</summary>
/// <param name="Settings">What the session was about.</param>
/// <param name="Pass">The pass; null when the session had none.</param>
/// <param name="BeamWidth">Half-power beamwidth of the dish.</param>
/// <param name="PlannedHolds">The hold plan.</param>
/// <param name="Blocks">Half seconds in order of time, without holes.</param>
/// <param name="Calls">Nudges called.</param>
/// <param name="Keys">Keys with a meaning for the aim.</param>
/// <param name="Frames">Counts of frames as they arrived.</param>
/// <param name="Offsets">Measured carrier offsets.</param>
public sealed record ReviewLog(
    SessionSettings Settings,
    Pass? Pass,
    Angle BeamWidth,
    ImmutableArray<Hold> PlannedHolds,
    ImmutableArray<ReviewBlock> Blocks,
    ImmutableArray<ReviewCall> Calls,
    ImmutableArray<ReviewKey> Keys,
    ImmutableArray<FrameCount> Frames,
    ImmutableArray<SlipPoint> Offsets)
{
    /// <summary>What was known of the clock in the end; null where it was not compared.</summary>
    public ClockNow? Clock { get; init; }
}

/// <summary>Half a second of a session.</summary>
/// <param name="Start">Its begin, session time, seconds.</param>
/// <param name="Utc">The same in UTC.</param>
/// <param name="Look">Where the satellite was at its end; null where the orbit model has no answer.</param>
/// <param name="LevelDb">Mean of the steering value; null without a measurement.</param>
/// <param name="Samples">Measurements in it.</param>
/// <param name="Locked">Share of them with lock; null where the feed does not tell.</param>
/// <param name="Clipped">Largest share of clipped samples; null where the feed does not tell.</param>
/// <param name="Word">The word of the guidance.</param>
/// <param name="Dish">Believed direction of the dish; null when unknown.</param>
public readonly record struct ReviewBlock(
    double Start,
    DateTimeOffset Utc,
    LookAngles? Look,
    double? LevelDb,
    int Samples,
    double? Locked,
    double? Clipped,
    AimWord Word,
    Pointing? Dish)
{
    /// <summary>Length of a block, seconds.</summary>
    public const double Seconds = 0.5;
}

/// <summary>A nudge that was called.</summary>
/// <param name="At">Session time of the call, seconds.</param>
/// <param name="Utc">The same in UTC.</param>
/// <param name="Nudge">The move that was called.</param>
/// <param name="Reason">Why it was called.</param>
public readonly record struct ReviewCall(double At, DateTimeOffset Utc, AimError Nudge, AimReason Reason);

/// <summary>A key of the operator.</summary>
/// <param name="At">Session time, seconds.</param>
/// <param name="Key">Which.</param>
public readonly record struct ReviewKey(double At, OperatorKey Key);

/// <summary>A count of frames.</summary>
/// <param name="At">Session time of its arrival, seconds.</param>
/// <param name="Frames">Frames received so far, by the decoder.</param>
public readonly record struct FrameCount(double At, long Frames);
