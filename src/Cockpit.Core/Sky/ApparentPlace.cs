using Cockpit.Core.Geo;
using Cockpit.Core.Time;
using Cockpit.Core.Units;

namespace Cockpit.Core.Sky;

/// <summary>The bodies that a dish operator asks for.</summary>
public enum SkyBody
{
    /// <summary>The sun.</summary>
    Sun = 0,

    /// <summary>The moon.</summary>
    Moon = 1,
}

/// <summary>Where a body appears from the centre of the earth: aberration or light time and nutation are in.</summary>
/// <param name="RightAscension">True equinox of date, [0°, 360°).</param>
/// <param name="Declination">True equator of date.</param>
/// <param name="DistanceKm">From the centre of the earth, km.</param>
/// <param name="Greenwich">Apparent sidereal time at Greenwich then, [0°, 360°).</param>
public readonly record struct ApparentPlace(Angle RightAscension, Angle Declination, double DistanceKm, Angle Greenwich)
{
    private const double AstronomicalUnitKm = 149597870.7; // IAU 2012 resolution B2

    private static readonly Angle AberrationAtOneAu = Angle.FromDegrees(20.4898 / 3600.0); // NREL/TP-560-34302, section 3.6

    /// <summary>The same place in axes that turn with the earth.</summary>
    public EcefPosition EarthFixed
    {
        get
        {
            (double sine, double cosine) = Math.SinCos((RightAscension - Greenwich).Radians);
            double fromAxis = DistanceKm * Declination.Cos();
            return new EcefPosition(fromAxis * cosine, fromAxis * sine, DistanceKm * Declination.Sin());
        }
    }

    /// <summary>The place of a body.</summary>
    /// <param name="body">Which.</param>
    /// <param name="utc">The moment in UTC; UT1 is taken equal to it (0.9 s at most, 13.5″ of azimuth).</param>
    /// <param name="terrestrialMinusUtcSeconds">TT - UTC, seconds.</param>
    /// <remarks>
    /// Error about 1″ for the sun and 10″ for the moon. Sources: NREL/TP-560-34302 for the sun; J. Meeus, Astronomical Algorithms, 2nd ed., chapters 12,
    /// 13 and 47.
    /// </remarks>
    public static ApparentPlace Of(SkyBody body, JulianDate utc, double terrestrialMinusUtcSeconds = TerrestrialTime.MinusUtcSeconds)
    {
        double centuries = TerrestrialTime.CenturiesSinceJ2000(utc, terrestrialMinusUtcSeconds);
        Nutation nutation = Nutation.At(centuries);
        (Angle longitude, Angle latitude, double distance) = body == SkyBody.Sun ? Sun(centuries) : Moon(centuries);
        longitude += nutation.InLongitude;
        Angle tilt = nutation.TrueObliquity;
        double sine = (latitude.Sin() * tilt.Cos()) + (latitude.Cos() * tilt.Sin() * longitude.Sin());
        double east = (longitude.Sin() * tilt.Cos() * latitude.Cos()) - (latitude.Sin() * tilt.Sin());
        double towards = longitude.Cos() * latitude.Cos();
        Angle equation = nutation.InLongitude * tilt.Cos();
        return new ApparentPlace(
            Angle.FromRadians(Math.Atan2(east, towards)).WrappedToTurn(),
            Angle.FromRadians(Math.Asin(sine)),
            distance,
            (SiderealTime.Greenwich(utc) + equation).WrappedToTurn());
    }

    private static (Angle Longitude, Angle Latitude, double DistanceKm) Sun(double centuries)
    {
        var earth = EarthOrbit.At(centuries);
        Angle longitude = earth.Longitude + Angle.FromRadians(Math.PI) - (AberrationAtOneAu / earth.DistanceAu);
        return (longitude, -earth.Latitude, earth.DistanceAu * AstronomicalUnitKm);
    }

    private static (Angle Longitude, Angle Latitude, double DistanceKm) Moon(double centuries)
    {
        var moon = MoonOrbit.At(centuries);
        return (moon.Longitude, moon.Latitude, moon.DistanceKm);
    }
}
