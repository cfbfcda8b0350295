using System.Collections.Immutable;
using Cockpit.Core.Aim;
using Cockpit.Core.Signal;
using Cockpit.Core.Units;
using Cockpit.Session.State;

namespace Cockpit.Session.Computers.Estimate;

/// <summary>What is known about the dish and the scale of its level; all times are session time.</summary>
public sealed record EstimateMemory
{
    /// <summary>Nothing known yet.</summary>
    public static EstimateMemory Empty { get; } = new();

    /// <summary>Where the dish is believed to be; null when nothing is known.</summary>
    public Belief? Dish { get; init; }

    /// <summary>What changed the believed direction last.</summary>
    public BeliefChange Change { get; init; }

    /// <summary>The last nudge; null when it cannot be taken back.</summary>
    public LastNudge? LastNudge { get; init; }

    /// <summary>When the operator last said "peaked" and was believed.</summary>
    public TimeSpan? MarkedAt { get; init; }

    /// <summary>When a mark was last refused.</summary>
    public TimeSpan? RefusedAt { get; init; }

    /// <summary>Measured level minus C/N0 by the budget for a well-pointed dish, the best of the marks, dB; null before the first.</summary>
    public double? GainDb { get; init; }

    /// <summary>The quantity that the gain belongs to.</summary>
    public SteeringQuantity? GainQuantity { get; init; }

    /// <summary>Measured minus expected in the last half seconds, dB, oldest first, at most four; null where one was not known.</summary>
    public ImmutableArray<double?> Over { get; init; } = [];

    /// <summary>Since when the satellite has been out of the beam; null when it is not.</summary>
    public TimeSpan? LostSince { get; init; }

    /// <summary>Since when the signal has been there again while the satellite was lost.</summary>
    public TimeSpan? FoundSince { get; init; }

    /// <summary>Since when the dish has been too badly known; null when it is well known.</summary>
    public TimeSpan? WideSince { get; init; }

    /// <summary>Since when the level has been lower than the believed pointing explains.</summary>
    public TimeSpan? ShortSince { get; init; }

    /// <summary>The last event.</summary>
    public TimeSpan? Now { get; init; }

    /// <summary>An answer to the operator; null when there is none.</summary>
    public Message? Notice { get; init; }

    /// <summary>When it was given.</summary>
    public TimeSpan NoticeAt { get; init; }
}

/// <summary>A direction with its spread at one moment.</summary>
/// <param name="Azimuth">True azimuth.</param>
/// <param name="Elevation">Elevation.</param>
/// <param name="Spread">One standard deviation on the sky, per axis, then.</param>
/// <param name="Since">When, session time.</param>
/// <param name="Origin">Where the knowledge comes from.</param>
public sealed record Belief(Angle Azimuth, Angle Elevation, Angle Spread, TimeSpan Since, PointingOrigin Origin);

/// <summary>A nudge that can still be taken back.</summary>
/// <param name="CalledAt">When it was called, session time; when it was made, if it was not called.</param>
/// <param name="Before">What was believed before it.</param>
public sealed record LastNudge(TimeSpan CalledAt, Belief Before);

/// <summary>The last change of the believed direction; whoever plans on it sees by the number that there was one.</summary>
/// <param name="Number">Counted from 1; 0 before the first.</param>
/// <param name="Kind">What happened.</param>
public readonly record struct BeliefChange(int Number, BeliefChangeKind Kind);

/// <summary>What can change the believed direction.</summary>
public enum BeliefChangeKind
{
    /// <summary>The dish stands at the first hold, or is taken to stand where the plan wants it.</summary>
    SetUp = 0,

    /// <summary>It points at the satellite: a mark, a signal found or regained.</summary>
    OnSatellite = 1,

    /// <summary>It was nudged to where it was asked to go.</summary>
    Nudged = 2,

    /// <summary>The last nudge was not made.</summary>
    TakenBack = 3,
}

/// <summary>The move that the hand was asked to make, or will be asked to.</summary>
/// <param name="Target">Where it leads.</param>
/// <param name="DueUtc">When it is called, UTC.</param>
/// <param name="CalledAt">When it was called, session time; null while it has not been.</param>
public sealed record AskedMove(Hold Target, DateTimeOffset DueUtc, TimeSpan? CalledAt);
