using System.Collections.Immutable;
using Cockpit.Core.Units;

namespace Cockpit.Session.Review;

/// <summary>Why picture lines were lost.</summary>
public enum GapCause
{
    /// <summary>The evidence does not say.</summary>
    Unknown = 0,

    /// <summary>A nudge was done late, or not at all.</summary>
    Late = 1,

    /// <summary>A nudge went too far or not far enough.</summary>
    Amount = 2,

    /// <summary>A nudge went the wrong way.</summary>
    WrongWay = 3,

    /// <summary>The satellite was not found yet.</summary>
    NotFound = 4,

    /// <summary>The dish was elsewhere without a nudge: drift, sag, a knock.</summary>
    OffAim = 5,

    /// <summary>The level fell against a known aim and came back: fading or something in the way.</summary>
    Fade = 6,

    /// <summary>Trees or roofs at the edge of the sky.</summary>
    Skyline = 7,

    /// <summary>Below the need with perfect aim: nothing a hand could do.</summary>
    Weak = 8,

    /// <summary>The receiver was overloaded: clipped samples.</summary>
    Overload = 9,

    /// <summary>The feed told nothing.</summary>
    FeedSilent = 10,

    /// <summary>Signal and lock were good, and the recorder or decoder counted nothing.</summary>
    RecorderStopped = 11,

    /// <summary>Nothing at any aim.</summary>
    NotTransmitting = 12,

    /// <summary>The plan led the dish around the sun.</summary>
    Sun = 13,
}

/// <summary>What the count of lines rests on.</summary>
public enum LineEvidence
{
    /// <summary>The decoder's count of frames.</summary>
    Frames = 0,

    /// <summary>The level against what the service needs.</summary>
    Level = 1,
}

/// <summary>Lines over the time that this place could see and that the session covers.</summary>
/// <param name="Sent">Sent in that time.</param>
/// <param name="Received">Received of them.</param>
/// <param name="Lost">The rest.</param>
/// <param name="By">What the count rests on.</param>
/// <param name="Unwatched">Lines of the pass before the session began or after it ended; in none of the others.</param>
public sealed record LineCount(int Sent, int Received, int Lost, LineEvidence By, int Unwatched);

/// <summary>A run of lost lines with one cause.</summary>
/// <param name="FromUtc">Its first line, UTC.</param>
/// <param name="ToUtc">End of its last line, UTC.</param>
/// <param name="Lines">How many.</param>
/// <param name="Cause">Why.</param>
/// <param name="Confidence">How sure, 0..1.</param>
public sealed record Gap(DateTimeOffset FromUtc, DateTimeOffset ToUtc, int Lines, GapCause Cause, double Confidence);

/// <summary>A figure with its spread.</summary>
/// <param name="Value">Median or mean.</param>
/// <param name="Sd">Standard deviation of what it is the middle of, or its error.</param>
/// <param name="Count">How many observations it rests on.</param>
public readonly record struct Spread(double Value, double Sd, int Count);

/// <summary>What the session tells about the hand; a part that cannot be told is null.</summary>
/// <param name="ReactionSeconds">From a call to the begin of the move, by the key "moved": median and spread.</param>
/// <param name="Amount">Size of the moves against what was called: mean and its error.</param>
/// <param name="DirectionDegrees">Direction of the moves against what was called: mean and spread.</param>
/// <param name="Nudges">Nudges called.</param>
/// <param name="Planned">Nudges of the hold plan in the time that was watched.</param>
/// <param name="Marks">Times "peaked" was pressed.</param>
/// <param name="Reactions">The reactions one by one.</param>
public sealed record HandReview(
    Spread? ReactionSeconds,
    Spread? Amount,
    Spread? DirectionDegrees,
    int Nudges,
    int Planned,
    int Marks,
    ImmutableArray<ReactionPoint> Reactions);

/// <summary>One call that the key "moved" answered.</summary>
/// <param name="Utc">When it was called, UTC.</param>
/// <param name="Seconds">From the call to the begin of the move.</param>
/// <param name="KeySeconds">From the call to the key: the move is in it.</param>
/// <param name="SizeDegrees">Size on the sky of the move that was called.</param>
/// <param name="TurnDegrees">The larger turn of its two axes.</param>
public readonly record struct ReactionPoint(DateTimeOffset Utc, double Seconds, double KeySeconds, double SizeDegrees, double TurnDegrees);

/// <summary>How far the satellite is ahead of the elements by the measured carrier, if clock and elements disagree.</summary>
/// <param name="SlipSeconds">Positive: the satellite comes earlier than predicted, or the clock is slow.</param>
/// <param name="Sd">Its error, one standard deviation.</param>
public sealed record DopplerSlip(double SlipSeconds, double Sd);

/// <summary>One sentence of advice.</summary>
/// <param name="Text">The sentence, evidence included.</param>
/// <param name="Lines">What it is worth, lines.</param>
public sealed record Advice(string Text, int Lines);

/// <summary>A part of the sky with its share of received lines.</summary>
/// <param name="Azimuth">Centre of the eighth of the compass.</param>
/// <param name="High">Above 30°.</param>
/// <param name="Sent">Lines sent there.</param>
/// <param name="Received">Received of them.</param>
public readonly record struct SkyPart(Angle Azimuth, bool High, int Sent, int Received)
{
    /// <summary>Received of sent, 0..1.</summary>
    public double Share => Sent > 0 ? (double)Received / Sent : 0.0;
}

/// <summary>What became of one line.</summary>
public enum LineState
{
    /// <summary>Received.</summary>
    Received = 0,

    /// <summary>Lost.</summary>
    Lost = 1,
}

/// <summary>A pass as it is seen afterwards: what was lost, why, and what to do better.</summary>
/// <param name="SatelliteName">For people.</param>
/// <param name="FromUtc">First line watched, UTC.</param>
/// <param name="ToUtc">End of the last line watched, UTC.</param>
/// <param name="HighestElevation">Highest elevation of the pass.</param>
/// <param name="Lines">Lines sent, received, lost.</param>
/// <param name="LineStates">One state a line, from <paramref name="FromUtc"/> on, six a second.</param>
/// <param name="Gaps">Runs of lost lines, in order of time.</param>
/// <param name="Hand">The hand.</param>
/// <param name="Doppler">The carrier's word on elements and clock; null where the feed tells no offset.</param>
/// <param name="Parts">Parts of the sky with at least ten seconds in them.</param>
/// <param name="Advice">At most three sentences, most worth first.</param>
/// <param name="NeedDb">The level that the service needs, in the unit of the feed; null where the session does not tell.</param>
/// <param name="Course">What was measured and what could be expected, a point each half second.</param>
public sealed record SessionReview(
    string SatelliteName,
    DateTimeOffset FromUtc,
    DateTimeOffset ToUtc,
    Angle HighestElevation,
    LineCount Lines,
    ImmutableArray<LineState> LineStates,
    ImmutableArray<Gap> Gaps,
    HandReview Hand,
    DopplerSlip? Doppler,
    ImmutableArray<SkyPart> Parts,
    ImmutableArray<Advice> Advice,
    double? NeedDb,
    ImmutableArray<CoursePoint> Course)
{
    /// <summary>Where the signal came and went, against the skyline; an end that the session does not tell is not in it.</summary>
    public ImmutableArray<SkyEdge> Edges { get; init; } = [];

    /// <summary>What the carrier says about elements and clock; null where there is no slip.</summary>
    public CarrierReview? Carrier { get; init; }
}

/// <summary>One half second of the pass as the review sees it.</summary>
/// <param name="Utc">Its middle, UTC.</param>
/// <param name="LevelDb">Measured, mean; null where nothing came.</param>
/// <param name="ReachableDb">What a perfectly pointed dish would have shown, by the level's own course; null where unknown.</param>
/// <param name="Azimuth">Of the satellite, true; null where unknown.</param>
/// <param name="Elevation">Of the satellite.</param>
/// <param name="Dish">Believed direction of the dish then; null where unknown.</param>
/// <param name="OffAxis">Believed angle between dish and satellite; null where unknown.</param>
public readonly record struct CoursePoint(
    DateTimeOffset Utc, double? LevelDb, double? ReachableDb, Angle? Azimuth, Angle? Elevation, Core.Aim.Pointing? Dish, Angle? OffAxis);
