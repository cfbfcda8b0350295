using Cockpit.Core.Units;

namespace Cockpit.Core.Geo;

/// <summary>The line on the ground that a scanning instrument sees at one instant: across the motion, its axis along the local vertical.</summary>
/// <remarks>
/// Across means at right angles to the horizontal part of the inertial velocity. The vertical is that of the WGS 84 ellipsoid, the ground is the
/// ellipsoid itself: no terrain, no refraction, no error of the satellite's attitude (a tenth of a degree of it moves the line by 1.5 km).
/// </remarks>
public sealed class ScanLine
{
    private const double EquatorKm = 6378.137; // NGA.STND.0036, WGS 84, table 3.1
    private const double PoleKm = EquatorKm * (1.0 - (1.0 / 298.257223563));

    private readonly EcefPosition _satellite;
    private readonly EcefPosition _down;
    private readonly EcefPosition _right;

    /// <summary>The line at an instant.</summary>
    /// <param name="state">The satellite, Earth-fixed.</param>
    public ScanLine(in EcefState state)
    {
        _satellite = state.Position;
        Site below = _satellite.ToSite();
        HeightKm = below.HeightMetres / 1e3;
        SubPoint = below with { HeightMetres = 0.0 };
        (double sinLat, double cosLat) = Math.SinCos(below.Latitude.Radians);
        (double sinLon, double cosLon) = Math.SinCos(below.Longitude.Radians);
        _down = new EcefPosition(-cosLat * cosLon, -cosLat * sinLon, -sinLat);

        var inertial = new EcefPosition(
            state.Vx - (EcefState.EarthRateRadPerSec * state.Y), state.Vy + (EcefState.EarthRateRadPerSec * state.X), state.Vz);
        EcefPosition across = Cross(_down, inertial); // the vertical part of the velocity drops out
        double length = across.RadiusKm;
        _right = new EcefPosition(across.X / length, across.Y / length, across.Z / length);
    }

    /// <summary>The half angle that is usual for the scanning radiometers of weather satellites; common practice, no source.</summary>
    public static Angle UsualHalfAngle => Angle.FromDegrees(55.4);

    /// <summary>The point straight below the satellite, geodetic.</summary>
    public Site SubPoint { get; }

    /// <summary>How high the satellite is above that point, km.</summary>
    public double HeightKm { get; }

    /// <summary>Where the instrument looks at the ground.</summary>
    /// <param name="scan">From the axis, positive to the right of the motion, within ±90°.</param>
    /// <returns>A place on the ellipsoid; null where the look misses the earth.</returns>
    public Site? At(Angle scan)
    {
        (double sine, double cosine) = Math.SinCos(scan.Radians);
        var look = new EcefPosition(
            (cosine * _down.X) + (sine * _right.X), (cosine * _down.Y) + (sine * _right.Y), (cosine * _down.Z) + (sine * _right.Z));

        // Where the ray meets a sphere once the axes are stretched to make one of the ellipsoid.
        EcefPosition p = Stretched(_satellite);
        EcefPosition d = Stretched(look);
        double dd = Dot(d, d);
        double pd = Dot(p, d);
        double under = (pd * pd) - (dd * (Dot(p, p) - 1.0));
        if (under < 0.0 || pd > 0.0)
        {
            return null;
        }

        double along = (-pd - Math.Sqrt(under)) / dd;
        var ground = new EcefPosition(_satellite.X + (along * look.X), _satellite.Y + (along * look.Y), _satellite.Z + (along * look.Z));
        return ground.ToSite() with { HeightMetres = 0.0 };
    }

    private static EcefPosition Stretched(EcefPosition v) => new(v.X / EquatorKm, v.Y / EquatorKm, v.Z / PoleKm);

    private static double Dot(EcefPosition a, EcefPosition b) => (a.X * b.X) + (a.Y * b.Y) + (a.Z * b.Z);

    private static EcefPosition Cross(EcefPosition a, EcefPosition b) =>
        new((a.Y * b.Z) - (a.Z * b.Y), (a.Z * b.X) - (a.X * b.Z), (a.X * b.Y) - (a.Y * b.X));
}
