namespace Cockpit.Core.Orbit.Theory;

/// <summary>Rates of the resonance: of the mean motion, of the longitude λ, and the second rate of the mean motion.</summary>
internal readonly record struct ResonanceRates(double MotionRate, double LongitudeRate, double MotionSecondRate);

/// <summary>Resonance of an orbit with the turning earth, integrated from the epoch for every instant anew.</summary>
/// <remarks>
/// Spacetrack Report No. 3 (1980), section 7: Euler-Maclaurin steps of 720 min. Starting at the epoch each time keeps
/// answers free of what was asked before; the steps lie at the same instants as when a running integrator goes on.
/// </remarks>
internal abstract class Resonance
{
    /// <summary>How fast the earth turns, rad/min (AIAA 2006-6753).</summary>
    protected const double EarthRate = 4.37526908801129966e-3;
    private const double Step = 720.0;
    private readonly double _longitude;
    private readonly double _motion;
    private readonly double _longitudeDrift;
    private readonly double _sidereal;

    /// <summary>Takes what both kinds share.</summary>
    /// <param name="motion">Mean motion at the epoch, rad/min.</param>
    /// <param name="longitude">Resonance longitude at the epoch, rad.</param>
    /// <param name="longitudeDrift">Its rate beside the mean motion, rad/min.</param>
    /// <param name="sidereal">Sidereal time of Greenwich at the epoch, rad.</param>
    protected Resonance(double motion, double longitude, double longitudeDrift, double sidereal)
    {
        _motion = motion;
        _longitude = longitude % Math.Tau;
        _longitudeDrift = longitudeDrift;
        _sidereal = sidereal;
    }

    /// <summary>Replaces mean motion and mean anomaly by what the resonance makes of them.</summary>
    internal void Apply(double t, ref MeanElements m)
    {
        double motion = _motion;
        double longitude = _longitude;
        double at = 0.0;
        double step = Math.CopySign(Step, t);
        while (Math.Abs(t - at) >= Step)
        {
            ResonanceRates rates = Rates(longitude, motion + _longitudeDrift, at);
            longitude += step * (rates.LongitudeRate + (0.5 * step * rates.MotionRate));
            motion += step * (rates.MotionRate + (0.5 * step * rates.MotionSecondRate));
            at += step;
        }

        double rest = t - at;
        ResonanceRates last = Rates(longitude, motion + _longitudeDrift, at);
        m.MeanMotion = motion + (rest * (last.MotionRate + (0.5 * rest * last.MotionSecondRate)));
        longitude += rest * (last.LongitudeRate + (0.5 * rest * last.MotionRate));
        m.MeanAnomaly = MeanAnomaly(longitude, (_sidereal + (EarthRate * t)) % Math.Tau, m);
    }

    /// <summary>The rates at one step.</summary>
    /// <param name="longitude">Resonance longitude, rad.</param>
    /// <param name="longitudeRate">Its rate, rad/min.</param>
    /// <param name="t">Minutes since the epoch.</param>
    protected abstract ResonanceRates Rates(double longitude, double longitudeRate, double t);

    /// <summary>Back from the resonance longitude to the mean anomaly.</summary>
    /// <param name="longitude">Resonance longitude, rad.</param>
    /// <param name="sidereal">Sidereal time of Greenwich, rad.</param>
    /// <param name="m">The other elements at the instant.</param>
    protected abstract double MeanAnomaly(double longitude, double sidereal, in MeanElements m);
}
