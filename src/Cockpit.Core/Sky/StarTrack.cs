using Cockpit.Core.Geo;
using Cockpit.Core.Time;
using Cockpit.Core.Units;

namespace Cockpit.Core.Sky;

/// <summary>A direction in the sky over a station; no refraction.</summary>
/// <param name="Azimuth">True, from north through east, [0°, 360°).</param>
/// <param name="Elevation">Above the horizon, [-90°, 90°].</param>
public readonly record struct SkyDirection(Angle Azimuth, Angle Elevation);

/// <summary>A star over one station: proper motion, precession, yearly aberration and nutation are in, parallax and refraction are not.</summary>
/// <param name="star">Which.</param>
/// <param name="site">The station; its height has no effect.</param>
public sealed class StarTrack(Star star, Site site)
{
    private const double YearsPerCentury = 100.0;
    private const double LightAuPerCentury = 173.1446326847 * 36525.0; // IAU 2012 resolution B2: c by the astronomical unit
    private const double VelocityStepCenturies = 0.02 / 36525.0;

    /// <summary>Where it stands.</summary>
    /// <param name="utc">The moment in UTC; UT1 is taken equal to it (0.9 s at most, 13.5″ along the star's circle).</param>
    /// <remarks>
    /// Error below 1″ of arc beside that. Sources: N. Capitaine et al. (2003) for the precession, NREL/TP-560-34302 for nutation and the earth's orbit;
    /// the order of the steps is that of J. Meeus, Astronomical Algorithms, 2nd ed., chapters 21 to 23, with vectors, which serve near the pole too.
    /// </remarks>
    public SkyDirection At(DateTimeOffset utc)
    {
        var moment = JulianDate.FromUtc(utc);
        double centuries = TerrestrialTime.CenturiesSinceJ2000(moment);
        var nutation = Nutation.At(centuries);
        var precession = Precession.At(centuries);

        SkyVector place = OfDate(centuries)
            .AboutZ(precession.Zeta).AboutY(-precession.Theta).AboutZ(precession.Z)
            .AboutX(-nutation.MeanObliquity)
            .Plus(EarthVelocity(centuries));
        SkyVector seen = place.AboutZ(nutation.InLongitude).AboutX(nutation.TrueObliquity);

        Angle greenwich = SiderealTime.Greenwich(moment) + (nutation.InLongitude * nutation.TrueObliquity.Cos());
        SkyVector local = seen.AboutZ(-(greenwich + site.Longitude)); // X south side of the meridian on the equator, Y east, Z pole
        SkyVector horizon = local.AboutY(site.Latitude - Angle.FromDegrees(90.0)); // X south, Y east, Z up
        return new SkyDirection(
            Angle.FromRadians(Math.Atan2(horizon.Y, -horizon.X)).WrappedToTurn(),
            Angle.FromRadians(Math.Atan2(horizon.Z, Math.Sqrt((horizon.X * horizon.X) + (horizon.Y * horizon.Y)))));
    }

    // Mean place of J2000 moved by the star's own motion.
    private SkyVector OfDate(double centuries)
    {
        double years = centuries * YearsPerCentury;
        return SkyVector.Towards(
            star.RightAscension + (star.MotionEast * (years / star.Declination.Cos())), star.Declination + (star.MotionNorth * years));
    }

    // In units of the speed of light, mean ecliptic of date; that of the sun about the barycentre, 0.01″ at most, is left out.
    private static SkyVector EarthVelocity(double centuries)
    {
        SkyVector before = EarthPlace(centuries - VelocityStepCenturies);
        SkyVector after = EarthPlace(centuries + VelocityStepCenturies);
        double scale = 1.0 / (2.0 * VelocityStepCenturies * LightAuPerCentury);
        return new SkyVector((after.X - before.X) * scale, (after.Y - before.Y) * scale, (after.Z - before.Z) * scale);
    }

    private static SkyVector EarthPlace(double centuries)
    {
        var earth = EarthOrbit.At(centuries);
        SkyVector towards = SkyVector.Towards(earth.Longitude, earth.Latitude);
        return new SkyVector(towards.X * earth.DistanceAu, towards.Y * earth.DistanceAu, towards.Z * earth.DistanceAu);
    }
}

/// <summary>A vector and its turns; a positive turn moves the vector from X to Y (about Z), Y to Z (about X), Z to X (about Y).</summary>
internal readonly record struct SkyVector(double X, double Y, double Z)
{
    public static SkyVector Towards(Angle longitude, Angle latitude) =>
        new(latitude.Cos() * longitude.Cos(), latitude.Cos() * longitude.Sin(), latitude.Sin());

    public SkyVector Plus(SkyVector other) => new(X + other.X, Y + other.Y, Z + other.Z);

    public SkyVector AboutX(Angle turn) => new(X, (Y * turn.Cos()) - (Z * turn.Sin()), (Y * turn.Sin()) + (Z * turn.Cos()));

    public SkyVector AboutY(Angle turn) => new((X * turn.Cos()) + (Z * turn.Sin()), Y, (Z * turn.Cos()) - (X * turn.Sin()));

    public SkyVector AboutZ(Angle turn) => new((X * turn.Cos()) - (Y * turn.Sin()), (X * turn.Sin()) + (Y * turn.Cos()), Z);
}
