using Cockpit.Core.Units;

namespace Cockpit.Core.Geo;

/// <summary>Where a satellite is and how it moves as seen from the turning earth: km and km/s, Earth-fixed axes.</summary>
/// <param name="X">To latitude 0°, longitude 0°, km.</param>
/// <param name="Y">To latitude 0°, longitude 90° east, km.</param>
/// <param name="Z">To the pole, km.</param>
/// <param name="Vx">Rate of X, km/s.</param>
/// <param name="Vy">Rate of Y, km/s.</param>
/// <param name="Vz">Rate of Z, km/s.</param>
/// <remarks>
/// Polar motion is left out, so these are the pseudo Earth-fixed axes. The pole wanders within about 0.3″ of its place, that is
/// at most 10 m on the ground and below 0.001° at a satellite 600 km away: far less than the kilometre of the elements
/// (IERS Conventions 2010, section 5.4.1; the printed example of AIAA 2006-6753, appendix C, moves by 16 m at 8000 km).
/// </remarks>
public readonly record struct EcefState(double X, double Y, double Z, double Vx, double Vy, double Vz)
{
    /// <summary>How fast the earth turns, rad/s (AIAA 2006-6753, appendix C; length of day 86400 s).</summary>
    public const double EarthRateRadPerSec = 7.292115146706979e-5;

    /// <summary>The position alone.</summary>
    public EcefPosition Position => new(X, Y, Z);

    /// <summary>Turns a state of SGP4 into Earth-fixed axes.</summary>
    /// <param name="teme">True equator, mean equinox of date.</param>
    /// <param name="greenwich">Greenwich mean sidereal time (IAU 1982) of the moment.</param>
    /// <remarks>Source: AIAA 2006-6753, appendix C.</remarks>
    public static EcefState FromTeme(in TemeState teme, Angle greenwich)
    {
        (double sin, double cos) = Math.SinCos(greenwich.Radians);
        double x = (cos * teme.X) + (sin * teme.Y);
        double y = (cos * teme.Y) - (sin * teme.X);
        return new EcefState(
            x,
            y,
            teme.Z,
            (cos * teme.Vx) + (sin * teme.Vy) + (EarthRateRadPerSec * y),
            (cos * teme.Vy) - (sin * teme.Vx) - (EarthRateRadPerSec * x),
            teme.Vz);
    }
}
