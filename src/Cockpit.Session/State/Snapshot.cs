using System.Collections.Immutable;
using Cockpit.Core.Aim;
using Cockpit.Core.Passes;
using Cockpit.Core.Signal;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;
using Cockpit.Session.Events;

namespace Cockpit.Session.State;

/// <summary>Everything that screen, cues and tests see of one moment; immutable, a pure function of the events so far.</summary>
/// <param name="Sequence">Sequence number of the event it follows.</param>
/// <param name="Utc">Session time of that event, UTC.</param>
/// <param name="Elapsed">Monotonic session time of that event.</param>
/// <param name="Settings">What the session is about; null before the first event.</param>
/// <param name="Sky">Where the satellite is; null without settings or when no pass was found.</param>
/// <param name="Link">Doppler, expected and measured level.</param>
/// <param name="Aim">Where the dish is and where it must go.</param>
/// <param name="Feeds">Health of the feeds.</param>
/// <param name="Desk">Sound, journal, operator's switches.</param>
/// <param name="Message">The one line of messages.</param>
/// <param name="Cues">What should sound.</param>
public sealed record Snapshot(
    long Sequence,
    DateTimeOffset Utc,
    TimeSpan Elapsed,
    SessionSettings? Settings,
    SkyNow? Sky,
    LinkNow Link,
    AimNow Aim,
    ImmutableArray<FeedNow> Feeds,
    DeskNow Desk,
    Message? Message,
    CuePlan Cues);

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
public sealed record SkyNow(
    Pass Pass,
    LookAngles? Now,
    PassPhase Phase,
    TimeSpan ToNext,
    TimeSpan ElementAge,
    double AlongTrackErrorKm,
    ImmutableArray<PassMoment> Track,
    ImmutableArray<LookAngles> Ahead,
    ImmutableArray<Hold> Holds);

/// <summary>The radio side of the moment.</summary>
/// <param name="Doppler">Shift that the receiver sees, positive = higher; null without a pass.</param>
/// <param name="DopplerRateHzPerSec">Its rate, Hz/s.</param>
/// <param name="Last">The last measurement; null before the first.</param>
/// <param name="LastUtc">When it arrived.</param>
/// <param name="Fresh">Younger than 2 s.</param>
/// <param name="Quantity">What steers: "SNR", "C/N0", "level"; null before the first measurement.</param>
/// <param name="MeasuredDb">The steering value, smoothed 0.5 s, dB; null when older than 10 s.</param>
/// <param name="ExpectedDb">What a well-pointed dish should show now in the same unit, dB; null until a mark has tied the scale.</param>
/// <param name="TrendDbPerSec">Slope over the last 2 s, dB/s; null with too few measurements.</param>
/// <param name="History">The last 60 s for the strip, oldest first, one per half second.</param>
/// <param name="LockLostFor">How long the decoder has been without lock; null when locked or unknown.</param>
/// <param name="NoSignalFor">How long the level has been at the receiver's floor; null when above it, unknown or not fresh.</param>
/// <param name="FloorDb">The receiver's floor as seen so far, same unit as the level; null until known.</param>
public sealed record LinkNow(
    Frequency? Doppler,
    double? DopplerRateHzPerSec,
    SignalSample? Last,
    DateTimeOffset? LastUtc,
    bool Fresh,
    string? Quantity,
    double? MeasuredDb,
    double? ExpectedDb,
    double? TrendDbPerSec,
    ImmutableArray<LevelPoint> History,
    TimeSpan? LockLostFor,
    TimeSpan? NoSignalFor = null,
    double? FloorDb = null);

/// <summary>One point of the level strip.</summary>
/// <param name="Utc">When.</param>
/// <param name="MeasuredDb">Mean of the measurements in its half second; null where there was none.</param>
/// <param name="ExpectedDb">Expectation then; null where unknown.</param>
public readonly record struct LevelPoint(DateTimeOffset Utc, double? MeasuredDb, double? ExpectedDb);

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
    Decibels? PointingLoss);

/// <summary>Health of one feed.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Role">What it is for.</param>
/// <param name="Where">Its address, for people.</param>
/// <param name="Health">In one word.</param>
/// <param name="SilentSince">UTC of its last good record, or of the session's start; null while it is fresh.</param>
/// <param name="Trouble">What is wrong, one sentence; null when all is well.</param>
/// <param name="Records">Good records so far.</param>
/// <param name="Rejected">Bad records so far.</param>
public sealed record FeedNow(string Name, FeedRole Role, string Where, FeedHealth Health, DateTimeOffset? SilentSince, string? Trouble, long Records, long Rejected);

/// <summary>Health of a feed in one word.</summary>
public enum FeedHealth
{
    /// <summary>Not connected yet.</summary>
    Waiting = 0,

    /// <summary>Records come.</summary>
    Good = 1,

    /// <summary>No record for more than 2 s.</summary>
    Stale = 2,

    /// <summary>No record for more than 10 s, or the connection is lost.</summary>
    Absent = 3,

    /// <summary>Twenty bad records in a row.</summary>
    Unreadable = 4,
}

/// <summary>State of the desk: sound, journal, switches.</summary>
/// <param name="Speaker">Name of the sound device.</param>
/// <param name="SpeakerTrouble">Why it is not the wanted one; null when all is well.</param>
/// <param name="JournalTrouble">Why the journal is not written; null when all is well.</param>
/// <param name="Muted">Guidance muted by the operator.</param>
/// <param name="VolumeDb">Volume set by the operator re the default, dB.</param>
/// <param name="Searching">The operator asked for the search tone.</param>
public sealed record DeskNow(string? Speaker, string? SpeakerTrouble, string? JournalTrouble, bool Muted, double VolumeDb, bool Searching);

/// <summary>The line of messages.</summary>
/// <param name="Text">One sentence.</param>
/// <param name="Weight">How much it matters.</param>
/// <param name="SinceUtc">Since when it is shown.</param>
public sealed record Message(string Text, MessageWeight Weight, DateTimeOffset SinceUtc);

/// <summary>How much a message matters.</summary>
public enum MessageWeight
{
    /// <summary>Good to know.</summary>
    Advisory = 0,

    /// <summary>Needs attention soon.</summary>
    Caution = 1,

    /// <summary>Needs action now.</summary>
    Warning = 2,
}
