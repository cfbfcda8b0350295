namespace Cockpit.Core.Estimate;

/// <summary>What the estimate takes the hand at the dish to be; seconds, degrees on the sky, shares.</summary>
/// <remarks>Design values of the simulated hands; nobody has measured a person. Errors are standard deviations.</remarks>
public sealed record HandModel
{
    /// <summary>Median time from a call to the begin of the move, s (lognormal).</summary>
    public required double ReactionSeconds { get; init; }

    /// <summary>Spread of the logarithm of that time.</summary>
    public double ReactionSpread { get; init; } = 0.3;

    /// <summary>Share of calls that are not followed.</summary>
    public required double Lapse { get; init; }

    /// <summary>Share of moves whose larger axis goes the wrong way.</summary>
    public required double WrongWay { get; init; }

    /// <summary>Size of the moves on the whole against what is called; what is called allows for it.</summary>
    public double Amount { get; init; } = 1.0;

    /// <summary>Error of a move's size, share of it.</summary>
    public required double SizeError { get; init; }

    /// <summary>Error of a move's direction, degrees.</summary>
    public required double DirectionErrorDegrees { get; init; }

    /// <summary>Error of any move for each axis: reading, backlash, sway; degrees.</summary>
    public required double FloorErrorDegrees { get; init; }

    /// <summary>Fastest turn of an axis of the head, degrees a second.</summary>
    public required double SlewDegreesPerSec { get; init; }

    /// <summary>Time of a small move, s.</summary>
    public required double MoveSeconds { get; init; }

    /// <summary>Time added for each doubling of its size over 1.5 degrees, s.</summary>
    public required double MoveSecondsPerBit { get; init; }

    /// <summary>Error of the compass that is constant in a pass, degrees of azimuth.</summary>
    public required double CompassDegrees { get; init; }

    /// <summary>The same of the inclinometer, degrees.</summary>
    public required double InclinometerDegrees { get; init; }

    /// <summary>Error of one reading of either, degrees.</summary>
    public double ReadingDegrees { get; init; } = 2.0;

    /// <summary>Median time that one reading takes, s (lognormal, 0.15); some hands read at a glance.</summary>
    public double ReadingSeconds { get; init; } = 3.0;

    /// <summary>Error of the size of a move that is checked against the compass, share of it.</summary>
    public double ReadingSizeError { get; init; } = 0.1;

    /// <summary>The first passes of someone's life.</summary>
    public static HandModel Novice { get; } = new()
    {
        ReactionSeconds = 0.8,
        Lapse = 0.05,
        WrongWay = 0.04,
        SizeError = 0.25,
        DirectionErrorDegrees = 12.0,
        FloorErrorDegrees = 1.45,
        SlewDegreesPerSec = 20.0,
        MoveSeconds = 0.4,
        MoveSecondsPerBit = 0.25,
        CompassDegrees = 11.0,
        InclinometerDegrees = 5.5,
    };

    /// <summary>Someone with some tens of passes behind them.</summary>
    public static HandModel Practised { get; } = new()
    {
        ReactionSeconds = 0.45,
        Lapse = 0.015,
        WrongWay = 0.008,
        SizeError = 0.12,
        DirectionErrorDegrees = 6.0,
        FloorErrorDegrees = 0.8,
        SlewDegreesPerSec = 30.0,
        MoveSeconds = 0.3,
        MoveSecondsPerBit = 0.15,
        CompassDegrees = 5.5,
        InclinometerDegrees = 3.3,
    };

    /// <summary>How long a move takes, s.</summary>
    /// <param name="pan">Turn of the head's first axis, degrees.</param>
    /// <param name="tilt">Turn of the second axis, degrees.</param>
    /// <param name="size">Size on the sky, degrees.</param>
    public double SecondsOf(double pan, double tilt, double size) => Math.Max(
        MoveSeconds + (MoveSecondsPerBit * Math.Log2(1.0 + (size / 1.5))),
        Math.Max(Math.Abs(pan), Math.Abs(tilt)) / SlewDegreesPerSec);
}
