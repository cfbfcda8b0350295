using Cockpit.Core.Units;

namespace Cockpit.Core.Geo;

/// <summary>A point that turns with the earth: X to the Greenwich meridian, Z to the north pole, WGS 84, km.</summary>
/// <param name="X">To latitude 0°, longitude 0°, km.</param>
/// <param name="Y">To latitude 0°, longitude 90° east, km.</param>
/// <param name="Z">To the north pole, km.</param>
/// <remarks>Ellipsoid: a = 6378.137 km, 1/f = 298.257223563 (NGA.STND.0036, WGS 84, table 3.1).</remarks>
public readonly record struct EcefPosition(double X, double Y, double Z)
{
    private const double EquatorKm = 6378.137;
    private const double Flattening = 1.0 / 298.257223563;
    private const double PoleKm = EquatorKm * (1.0 - Flattening);
    private const double Eccentricity2 = Flattening * (2.0 - Flattening);
    private const double SecondEccentricity2 = Eccentricity2 / (1.0 - Eccentricity2);
    private const double MetresPerKm = 1000.0;

    /// <summary>Distance from the earth's centre, km.</summary>
    public double RadiusKm => Math.Sqrt((X * X) + (Y * Y) + (Z * Z));

    /// <summary>Where a site is.</summary>
    /// <remarks>Exact to rounding. Source: B. Hofmann-Wellenhof et al., GPS Theory and Practice, 5th ed., eq. 10.8.</remarks>
    public static EcefPosition FromSite(Site site)
    {
        (double sinLat, double cosLat) = Math.SinCos(site.Latitude.Radians);
        (double sinLon, double cosLon) = Math.SinCos(site.Longitude.Radians);
        double normal = EquatorKm / Math.Sqrt(1.0 - (Eccentricity2 * sinLat * sinLat));
        double height = site.HeightMetres / MetresPerKm;
        double fromAxis = (normal + height) * cosLat;
        return new EcefPosition(fromAxis * cosLon, fromAxis * sinLon, ((normal * (1.0 - Eccentricity2)) + height) * sinLat);
    }

    /// <summary>The geodetic coordinates; longitude in (-180°, 180°], 0° on the axis.</summary>
    /// <remarks>
    /// Error below 1e-6 m from 5000 km under the surface to beyond the moon. Method: B. R. Bowring, Transformation from
    /// spatial to geographical coordinates, Survey Review 23 (1976), 323, repeated until the reduced latitude stands.
    /// </remarks>
    /// <exception cref="InvalidOperationException">The point is closer than 50 km to the earth's centre, where latitude has no use.</exception>
    public Site ToSite()
    {
        if (!(RadiusKm >= 50.0))
        {
            throw new InvalidOperationException("a point at the earth's centre has no latitude");
        }

        double fromAxis = Math.Sqrt((X * X) + (Y * Y));
        double reduced = Math.Atan2(Z * EquatorKm, fromAxis * PoleKm);
        double latitude = 0.0;
        for (int round = 0; round < 10; round++)
        {
            (double sin, double cos) = Math.SinCos(reduced);
            latitude = Math.Atan2(
                Z + (SecondEccentricity2 * PoleKm * sin * sin * sin),
                fromAxis - (Eccentricity2 * EquatorKm * cos * cos * cos));
            double next = Math.Atan2((1.0 - Flattening) * Math.Sin(latitude), Math.Cos(latitude));
            if (Math.Abs(next - reduced) < 1e-15)
            {
                break;
            }

            reduced = next;
        }

        // This form of the height is well conditioned at the poles and at the equator alike.
        (double sinLat, double cosLat) = Math.SinCos(latitude);
        double height = (fromAxis * cosLat) + (Z * sinLat) - (EquatorKm * Math.Sqrt(1.0 - (Eccentricity2 * sinLat * sinLat)));
        return new Site(Angle.FromRadians(latitude), Angle.FromRadians(Math.Atan2(Y, X)), height * MetresPerKm);
    }
}
