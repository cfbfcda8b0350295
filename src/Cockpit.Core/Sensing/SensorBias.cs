using Cockpit.Core.Units;

namespace Cockpit.Core.Sensing;

/// <summary>What is known of the errors of a sensor on the dish: an error of its azimuth, and how far it sits askew. A Kalman filter; pure.</summary>
/// <remarks>
/// Across the axis the sensor is off by A cos(elevation) + R, along the height by V: A is steel in the tripod, declination or an arbitrary zero,
/// and wanders; R and V belong to the way it is fixed. One elevation is not enough to part A from R; a pass is (R. E. Kalman, "A New Approach to
/// Linear Filtering and Prediction Problems", 1960; priors and walk are a judgement from simulated passes, no source).
/// </remarks>
public sealed record SensorBias
{
    /// <summary>A jump of the azimuth by more between two samples, while the height stays, is none of the hand.</summary>
    public static readonly Angle Jump = Angle.FromDegrees(15.0);

    private const double PriorAzimuth = 15.0;
    private const double PriorRight = 4.0;
    private const double PriorUp = 3.0;
    private const double WalkPerRootSecond = 0.1;

    /// <summary>So many standard deviations away the sensor has changed, not the belief.</summary>
    private const double Gate = 4.0;

    /// <summary>Nearer to the zenith an azimuth means nothing.</summary>
    private const double LeastLevel = 0.05;

    private double A { get; init; }

    private double R { get; init; }

    private double V { get; init; }

    private double AA { get; init; } = PriorAzimuth * PriorAzimuth;

    private double AR { get; init; }

    private double RR { get; init; } = PriorRight * PriorRight;

    private double VV { get; init; } = PriorUp * PriorUp;

    /// <summary>Nothing is known but how such errors usually are.</summary>
    public static SensorBias Unknown { get; } = new();

    /// <summary>A sensor whose azimuth has an arbitrary zero.</summary>
    public static SensorBias Arbitrary { get; } = new() { AA = 180.0 * 180.0 };

    /// <summary>How far its azimuth is off at an elevation: its own error, and what sitting askew makes of it there.</summary>
    public Angle AzimuthAt(Angle elevation) => Angle.FromDegrees(A + (R / Math.Max(LeastLevel, elevation.Cos())));

    /// <summary>How far it is known across the axis at an elevation, one standard deviation.</summary>
    public Angle DoubtAt(Angle elevation)
    {
        double level = elevation.Cos();
        return Angle.FromDegrees(Math.Sqrt(Math.Max(0.0, (level * level * AA) + (2.0 * level * AR) + RR)));
    }

    /// <summary>How far the elevation is known, one standard deviation.</summary>
    public Angle ElevationDoubt => Angle.FromDegrees(Math.Sqrt(VV));

    /// <summary>One set of errors as they may be, degrees: A, R and V by three numbers of the standard normal distribution.</summary>
    internal (double Azimuth, double Right, double Up) Drawn(double first, double second, double third)
    {
        double a = Math.Sqrt(AA);
        double along = AR / a;
        return (A + (a * first), R + (along * first) + (Math.Sqrt(Math.Max(0.0, RR - (along * along))) * second), V + (Math.Sqrt(VV) * third));
    }

    /// <summary>After some time: the azimuth's error has wandered.</summary>
    public SensorBias After(TimeSpan passed) => this with { AA = AA + (WalkPerRootSecond * WalkPerRootSecond * Math.Max(0.0, passed.TotalSeconds)) };

    /// <summary>After a jump of the azimuth: what was known of its error is forgotten.</summary>
    public SensorBias Jumped() => this with { AA = AA + (PriorAzimuth * PriorAzimuth), AR = 0.5 * AR };

    /// <summary>The dish is known to point somewhere, from the signal, a mark or a landmark.</summary>
    /// <param name="azimuth">What the sensor says, true; null where it tells no azimuth.</param>
    /// <param name="elevation">What it says; null where it tells none.</param>
    /// <param name="dishAzimuth">Where the dish points, true.</param>
    /// <param name="dishElevation">Its elevation.</param>
    /// <param name="spread">How far that may be off on each axis, one standard deviation.</param>
    public SensorBias Seen(Angle? azimuth, Angle? elevation, Angle dishAzimuth, Angle dishElevation, Angle spread)
    {
        double noise = spread.Degrees * spread.Degrees;
        SensorBias next = this;
        if (azimuth is { } read)
        {
            next = next.Across((read - dishAzimuth).WrappedToHalfTurn().Degrees, dishElevation.Cos(), noise);
        }

        return elevation is { } high ? next.Along((high - dishElevation).Degrees, noise) : next;
    }

    /// <summary>Where the dish points, by what the sensor says.</summary>
    /// <param name="azimuth">What it says, true.</param>
    /// <param name="elevation">What it says.</param>
    public (Angle Azimuth, Angle Elevation) Corrected(Angle azimuth, Angle elevation)
    {
        Angle high = elevation - Angle.FromDegrees(V);
        return ((azimuth - AzimuthAt(high)).WrappedToTurn(), high);
    }

    private SensorBias Across(double offDegrees, double level, double noise)
    {
        double found = offDegrees * level;
        double expected = (A * level) + R;
        double pa = (AA * level) + AR;
        double pr = (AR * level) + RR;
        double variance = (level * pa) + pr + noise;
        double away = found - expected;
        if (Math.Abs(away) > Gate * Math.Sqrt(variance) && AA < PriorAzimuth * PriorAzimuth)
        {
            // Steel came near, or it slipped: what was known is forgotten, and this is believed.
            return Jumped().Across(offDegrees, level, noise);
        }

        double ka = pa / variance;
        double kr = pr / variance;
        return this with
        {
            A = A + (ka * away),
            R = R + (kr * away),
            AA = AA - (ka * pa),
            AR = AR - (ka * pr),
            RR = RR - (kr * pr),
        };
    }

    private SensorBias Along(double off, double noise)
    {
        double gain = VV / (VV + noise);
        return this with { V = V + (gain * (off - V)), VV = VV * (1.0 - gain) };
    }
}
