using Cockpit.Core.Units;

namespace Cockpit.Core.Link;

/// <summary>The Doppler shift a receiver sees, first order in v/c.</summary>
/// <remarks>
/// The next term, f (v/c)², is below 1 Hz at 1.7 GHz for a low orbit. Source: D. Vallado, Fundamentals of Astrodynamics and
/// Applications, section on Doppler data (from memory):
/// shift = -f · (range rate)/c; light speed from the SI brochure, 9th ed., 2.2.
/// </remarks>
public static class Doppler
{
    private const double LightKmPerSec = Frequency.SpeedOfLightMetresPerSecond / 1000.0;

    /// <summary>The shift: positive, received higher, while the target approaches.</summary>
    /// <param name="carrier">What the satellite sends.</param>
    /// <param name="rangeRateKmPerSec">Growth of the distance, km/s.</param>
    public static Frequency Shift(Frequency carrier, double rangeRateKmPerSec) => new(-carrier.Hertz * rangeRateKmPerSec / LightKmPerSec);

    /// <summary>How fast the shift changes, hertz a second; negative through an ordinary pass.</summary>
    /// <param name="carrier">What the satellite sends.</param>
    /// <param name="rangeAccelerationKmPerSec2">Growth of the range rate, km/s².</param>
    public static double RateHertzPerSecond(Frequency carrier, double rangeAccelerationKmPerSec2) =>
        -carrier.Hertz * rangeAccelerationKmPerSec2 / LightKmPerSec;
}
