using Cockpit.Core.Units;

namespace Cockpit.Core.Sky;

/// <summary>How the air bends light and radio waves. Never applied unless asked for.</summary>
/// <remarks>
/// A dish beam of 10° to 20° does not feel it; it only moves the time of rise by a few seconds. All formulas are for an average atmosphere.
/// </remarks>
public static class Refraction
{
    /// <summary>Refraction of light from the apparent elevation, to be subtracted from it (1010 hPa, 10 °C).</summary>
    /// <param name="apparent">Apparent elevation, from about -1° up.</param>
    /// <remarks>
    /// Error 0.07′ at most. Source: G. Bennett (1982), by J. Meeus, Astronomical Algorithms, 2nd ed., eq. 16.3; a hair below zero at the zenith, as published.
    /// </remarks>
    public static Angle Bennett(Angle apparent) => ArcMinutes(1.0 / Tangent(apparent.Degrees, 7.31, 4.4));

    /// <summary>Refraction of light from the true elevation, to be added to it (1010 hPa, 10 °C).</summary>
    /// <param name="geometric">True elevation, from about -1° up.</param>
    /// <remarks>Source: T. Saemundsson (1986), by J. Meeus, Astronomical Algorithms, 2nd ed., eq. 16.4.</remarks>
    public static Angle Saemundsson(Angle geometric) => ArcMinutes(1.02 / Tangent(geometric.Degrees, 10.3, 5.11));

    /// <summary>Radio refraction from the apparent elevation, to be subtracted from it.</summary>
    /// <param name="apparent">Apparent elevation, meant for 0° to 10°.</param>
    /// <param name="heightKm">Height of the station, km, meant for 0 to 3.</param>
    /// <remarks>Within 0.012° of the ray integral it stands for. Source: ITU-R P.834, section 4, τ(h, θ).</remarks>
    public static Angle RadioFromApparent(Angle apparent, double heightKm)
    {
        double t = apparent.Degrees;
        double h = heightKm;
        double sum = 1.314 + (0.6437 * t) + (0.02869 * t * t) + (h * (0.2305 + (0.09428 * t) + (0.01096 * t * t))) + (0.008583 * h * h);
        return Angle.FromDegrees(1.0 / sum);
    }

    /// <summary>Radio refraction from the free-space elevation, to be added to it.</summary>
    /// <param name="geometric">Free-space elevation, meant for 0° to 10°.</param>
    /// <param name="heightKm">Height of the station, km, meant for 0 to 3.</param>
    /// <remarks>Source: ITU-R P.834, section 4, τs(h, θ₀).</remarks>
    public static Angle RadioFromGeometric(Angle geometric, double heightKm)
    {
        double t = geometric.Degrees;
        double h = heightKm;
        double sum = 1.728 + (0.5411 * t) + (0.03723 * t * t) + (h * (0.1815 + (0.06272 * t) + (0.01380 * t * t))) + (h * h * (0.01727 + (0.008288 * t)));
        return Angle.FromDegrees(1.0 / sum);
    }

    /// <summary>Elevation at which a radio wave arrives from a target above the horizon.</summary>
    /// <param name="geometric">Elevation without air.</param>
    /// <param name="heightKm">Height of the station, km.</param>
    /// <returns>The elevation with radio refraction; below the horizon, where the formula does not hold, the elevation without air.</returns>
    public static Angle ApparentRadioElevation(Angle geometric, double heightKm) =>
        geometric.Radians < 0.0 ? geometric : geometric + RadioFromGeometric(geometric, Math.Clamp(heightKm, 0.0, 3.0));

    private static double Tangent(double degrees, double numerator, double offset) =>
        Math.Tan(Angle.FromDegrees(degrees + (numerator / (degrees + offset))).Radians);

    private static Angle ArcMinutes(double minutes) => Angle.FromDegrees(minutes / 60.0);
}
