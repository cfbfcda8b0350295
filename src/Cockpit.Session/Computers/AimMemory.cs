using System.Collections.Immutable;
using Cockpit.Core.Aim;
using Cockpit.Core.Passes;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Session.Computers;

/// <summary>What the guidance depends on besides its own past.</summary>
/// <param name="Settings">What the session is about.</param>
/// <param name="Sky">Where the satellite is; null without a pass.</param>
/// <param name="Track">The satellite's path, any instant; null without a pass.</param>
/// <param name="Link">The radio side after the same event.</param>
/// <param name="Utc">Session time of the event, UTC.</param>
public sealed record AimContext(SessionSettings Settings, SkyNow? Sky, ITrack? Track, LinkNow Link, DateTimeOffset Utc);

/// <summary>What the guidance remembers between events.</summary>
public sealed record AimMemory
{
    /// <summary>Nothing known yet.</summary>
    public static AimMemory Empty { get; } = new();

    /// <summary>The pass that the plan was made for.</summary>
    public Pass? Pass { get; init; }

    /// <summary>That pass, sampled every <see cref="HoldPlan.Step"/>.</summary>
    public ImmutableArray<PassMoment> Track { get; init; } = [];

    /// <summary>Where the dish is believed to be; null when nothing is known.</summary>
    public Belief? Dish { get; init; }

    /// <summary>The span in which the satellite stays within the allowed cap of that direction.</summary>
    public Hold? Current { get; init; }

    /// <summary>Where the next nudge leads; null after the last.</summary>
    public Hold? Target { get; init; }

    /// <summary>When that nudge is called, UTC.</summary>
    public DateTimeOffset? NudgeAt { get; init; }

    /// <summary>When it was called, UTC; null while it has not been.</summary>
    public DateTimeOffset? CalledAt { get; init; }

    /// <summary>When the last nudge was called, UTC, and what was believed before it; null when it cannot be taken back.</summary>
    public LastNudge? LastNudge { get; init; }

    /// <summary>When the operator last said "peaked" and was believed, UTC.</summary>
    public DateTimeOffset? MarkedAt { get; init; }

    /// <summary>Nudges since that mark.</summary>
    public int NudgesSinceMark { get; init; }

    /// <summary>Measured level minus <see cref="ExpectedLevel.ShapeDb"/> for a well-pointed dish, the best of the marks; null before the first.</summary>
    public double? GainDb { get; init; }

    /// <summary>The quantity that the gain belongs to.</summary>
    public string? GainQuantity { get; init; }

    /// <summary>When a mark was last refused, UTC.</summary>
    public DateTimeOffset? RefusedAt { get; init; }

    /// <summary>Since when the signal has been searched for, UTC; null when it is not.</summary>
    public DateTimeOffset? SearchSince { get; init; }

    /// <summary>Since when the signal has been there again in a search, UTC.</summary>
    public DateTimeOffset? FoundSince { get; init; }

    /// <summary>Since when the dish has been too badly known, UTC; null when it is well known.</summary>
    public DateTimeOffset? PeakSince { get; init; }

    /// <summary>The operator asked to peak, UTC; null when not.</summary>
    public DateTimeOffset? PeakAskedAt { get; init; }

    /// <summary>Since when the level has been lower than the believed pointing explains, UTC.</summary>
    public DateTimeOffset? ShortSince { get; init; }

    /// <summary>The last event, UTC.</summary>
    public DateTimeOffset? Now { get; init; }

    /// <summary>Something to tell the operator; null when there is nothing.</summary>
    public Message? Notice { get; init; }
}

/// <summary>A direction with its spread at one instant.</summary>
/// <param name="Azimuth">True azimuth.</param>
/// <param name="Elevation">Elevation.</param>
/// <param name="Spread">One standard deviation on the sky, per axis, then.</param>
/// <param name="Since">When, UTC.</param>
/// <param name="Origin">Where the knowledge comes from.</param>
public sealed record Belief(Angle Azimuth, Angle Elevation, Angle Spread, DateTimeOffset Since, PointingOrigin Origin);

/// <summary>A nudge that can still be taken back.</summary>
/// <param name="CalledAt">When it was called, UTC; when it was made, if it was not called.</param>
/// <param name="Before">What was believed before it.</param>
/// <param name="HoldBefore">The hold before it.</param>
public sealed record LastNudge(DateTimeOffset CalledAt, Belief Before, Hold? HoldBefore);
