namespace Cockpit.Session.Rehearsal;

/// <summary>What is wrong with the sensor on the dish of a simulated pass; degrees, seconds. Errors are standard deviations unless said.</summary>
/// <remarks>Design values: a phone with a compass and an accelerometer, strapped to a dish near a steel tripod.</remarks>
public sealed record SensorWorld
{
    /// <summary>Constant error of the azimuth; never more than <see cref="MostAzimuthDegrees"/>.</summary>
    public double AzimuthDegrees { get; init; } = 8.0;

    /// <summary>The constant error of the azimuth is cut off there.</summary>
    public double MostAzimuthDegrees { get; init; } = 15.0;

    /// <summary>Constant error of the elevation.</summary>
    public double ElevationDegrees { get; init; } = 2.0;

    /// <summary>How far it sits askew to the right, in the dish's own frame.</summary>
    public double RightDegrees { get; init; }

    /// <summary>Slow wander of the azimuth about its error.</summary>
    public double WanderDegrees { get; init; } = 1.0;

    /// <summary>Its time constant.</summary>
    public double WanderSeconds { get; init; } = 30.0;

    /// <summary>Amplitude of an error of the azimuth that turns with the dish, and goes with the sine of its azimuth.</summary>
    public double IronDegrees { get; init; } = 2.0;

    /// <summary>The same with the sine and the cosine drawn for each pass: iron on the dish.</summary>
    public double OwnIronDegrees { get; init; }

    /// <summary>Its azimuth walks away, standard deviation after a second.</summary>
    public double DriftDegreesPerRootSecond { get; init; }

    /// <summary>Noise of a sample on each axis.</summary>
    public double NoiseDegrees { get; init; } = 1.0;

    /// <summary>Age of a sample when it arrives.</summary>
    public double LatencySeconds { get; init; }

    /// <summary>The zero of its azimuth is anywhere.</summary>
    public bool Arbitrary { get; init; }

    /// <summary>Before the pass the dish was pointed at something of known direction, 1.5 degrees beside it on each axis.</summary>
    public bool Sighted { get; init; }

    /// <summary>It tells no azimuth: an inclinometer.</summary>
    public bool ElevationOnly { get; init; }

    /// <summary>Its azimuth jumps by so much at 40 % of the pass.</summary>
    public double JumpDegrees { get; init; }

    /// <summary>It says nothing for so long from 40 % of the pass on.</summary>
    public double SleepSeconds { get; init; }

    /// <summary>It hangs off the dish for so long from 40 % of the pass on, and is fixed anew then.</summary>
    public double OffSeconds { get; init; }
}
