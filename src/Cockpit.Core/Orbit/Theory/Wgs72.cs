namespace Cockpit.Core.Orbit.Theory;

/// <summary>The gravity constants on which every published element set is fitted.</summary>
/// <remarks>Source: AIAA 2006-6753, section on gravity constants, set WGS-72. Units inside: earth radii, minutes, radians.</remarks>
internal static class Wgs72
{
    /// <summary>Equatorial radius, km.</summary>
    internal const double EarthRadiusKm = 6378.135;

    /// <summary>Gravitational parameter, km³/s².</summary>
    internal const double MuKm3PerS2 = 398600.8;

    /// <summary>Zonal harmonics.</summary>
    internal const double J2 = 0.001082616;
    internal const double J3 = -0.00000253881;
    internal const double J4 = -0.00000165597;
    internal const double J3OverJ2 = J3 / J2;

    /// <summary>The square root of the gravitational parameter in earth radii^1.5 a minute.</summary>
    internal static readonly double Ke = 60.0 / Math.Sqrt(EarthRadiusKm * EarthRadiusKm * EarthRadiusKm / MuKm3PerS2);

    /// <summary>Kilometres a second in one unit of speed of the theory.</summary>
    internal static readonly double KmPerSecond = EarthRadiusKm * Ke / 60.0;
}
