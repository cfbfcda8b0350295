namespace Cockpit.Session.Rehearsal;

/// <summary>A simulated operator in numbers; lengths in seconds, angles in degrees on the sky, levels in dB.</summary>
/// <remarks>
/// A model, not a person: good for comparing ways of guiding on the same passes, not for promising results. Confirmed values:
/// a glance of at most 2 s (NHTSA visual-manual guidelines, 2013); simple reaction 0.16-0.19 s and recognition 0.38 s, to
/// which the choice between two axes is added; direction-matching errors of about 10 % of a wrist's turn. The rest are design
/// values, to be replaced by measured ones.
/// </remarks>
public sealed record HandSkill
{
    /// <summary>Name for tables.</summary>
    public required string Name { get; init; }

    /// <summary>Median pause between looks, s (lognormal, 0.4).</summary>
    public required double GapSeconds { get; init; }

    /// <summary>Median look, s (lognormal, 0.25).</summary>
    public required double LookSeconds { get; init; }

    /// <summary>Median reaction to what is seen, s (lognormal, 0.25).</summary>
    public required double ReactionSeconds { get; init; }

    /// <summary>Median reaction to a sound cue, s (lognormal, 0.25).</summary>
    public required double CueReactionSeconds { get; init; }

    /// <summary>Level change that is just seen, dB.</summary>
    public required double JustSeenDb { get; init; }

    /// <summary>Drop that makes an operator without guidance act, dB.</summary>
    public required double DropDb { get; init; }

    /// <summary>Move to try a direction, degrees.</summary>
    public required double StepDegrees { get; init; }

    /// <summary>Move to follow the satellite, degrees.</summary>
    public required double FollowDegrees { get; init; }

    /// <summary>Size of the moves on the whole against what is meant: whoever moves too little has less than 1.</summary>
    public double Amount { get; init; } = 1.0;

    /// <summary>Error of a move's size, share of it (standard deviation).</summary>
    public required double SizeError { get; init; }

    /// <summary>Error of a move's direction, degrees (standard deviation).</summary>
    public required double DirectionErrorDegrees { get; init; }

    /// <summary>Smallest move that does not stick, degrees.</summary>
    public required double SmallestMoveDegrees { get; init; }

    /// <summary>Backlash on release, each axis, degrees (standard deviation).</summary>
    public required double BacklashDegrees { get; init; }

    /// <summary>Fastest turn of each axis of the head, degrees per second.</summary>
    public required double SlewDegreesPerSec { get; init; }

    /// <summary>Time of a small move, s.</summary>
    public required double MoveSeconds { get; init; }

    /// <summary>Time added for each doubling of its size over 1.5 degrees, s.</summary>
    public required double MoveSecondsPerBit { get; init; }

    /// <summary>Sway while moving, degrees for each 0.1 s (standard deviation).</summary>
    public required double SwayDegrees { get; init; }

    /// <summary>Share of cues that are missed.</summary>
    public required double Lapse { get; init; }

    /// <summary>Share of moves whose larger axis goes the wrong way.</summary>
    public required double WrongWay { get; init; }

    /// <summary>First error by the compass, degrees (standard deviation).</summary>
    public required double CompassDegrees { get; init; }

    /// <summary>First error by the inclinometer, degrees (standard deviation).</summary>
    public required double InclinometerDegrees { get; init; }

    /// <summary>Error of the believed direction of the track without guidance, degrees (standard deviation).</summary>
    public required double TrackDirectionDegrees { get; init; }

    /// <summary>Error of the remembered place on the track without guidance, degrees of azimuth (standard deviation).</summary>
    public required double MemoryDegrees { get; init; }

    /// <summary>Reading error of a cue, degrees (standard deviation).</summary>
    public required double ReadDegrees { get; init; }

    /// <summary>Share of called nudges that are confirmed with the "moved" key.</summary>
    public double ConfirmShare { get; init; } = 0.5;

    /// <summary>Whether the dish is set by compass when that is asked for; else the hand only follows the amounts.</summary>
    public bool HasCompass { get; init; } = true;

    /// <summary>Whether the program is told how far compass and inclinometer err; else it takes what is usual.</summary>
    public bool ToldSetUp { get; init; }

    /// <summary>The same hand without errors of its moves.</summary>
    public HandSkill WithoutErrors() => this with
    {
        SizeError = 0.0,
        DirectionErrorDegrees = 0.0,
        SmallestMoveDegrees = 0.0,
        BacklashDegrees = 0.0,
        SwayDegrees = 0.0,
        Lapse = 0.0,
        WrongWay = 0.0,
        ReadDegrees = 0.0,
    };

    /// <summary>The first passes of someone's life.</summary>
    public static HandSkill Novice { get; } = new()
    {
        Name = "novice",
        GapSeconds = 3.0,
        LookSeconds = 1.2,
        ReactionSeconds = 0.9,
        CueReactionSeconds = 0.8,
        JustSeenDb = 1.5,
        DropDb = 2.0,
        StepDegrees = 6.0,
        FollowDegrees = 8.0,
        SizeError = 0.25,
        DirectionErrorDegrees = 12.0,
        SmallestMoveDegrees = 1.5,
        BacklashDegrees = 0.5,
        SlewDegreesPerSec = 20.0,
        MoveSeconds = 0.4,
        MoveSecondsPerBit = 0.25,
        SwayDegrees = 0.3,
        Lapse = 0.05,
        WrongWay = 0.04,
        CompassDegrees = 10.0,
        InclinometerDegrees = 5.0,
        TrackDirectionDegrees = 50.0,
        MemoryDegrees = 8.0,
        ReadDegrees = 1.0,
    };

    /// <summary>Someone with some tens of passes behind them.</summary>
    public static HandSkill Practised { get; } = new()
    {
        Name = "practised",
        GapSeconds = 2.0,
        LookSeconds = 0.8,
        ReactionSeconds = 0.5,
        CueReactionSeconds = 0.45,
        JustSeenDb = 1.0,
        DropDb = 1.5,
        StepDegrees = 5.0,
        FollowDegrees = 7.0,
        SizeError = 0.12,
        DirectionErrorDegrees = 6.0,
        SmallestMoveDegrees = 0.8,
        BacklashDegrees = 0.3,
        SlewDegreesPerSec = 30.0,
        MoveSeconds = 0.3,
        MoveSecondsPerBit = 0.15,
        SwayDegrees = 0.2,
        Lapse = 0.01,
        WrongWay = 0.005,
        CompassDegrees = 5.0,
        InclinometerDegrees = 3.0,
        TrackDirectionDegrees = 25.0,
        MemoryDegrees = 5.0,
        ReadDegrees = 0.5,
    };
}
