using Cockpit.Core.Units;

namespace Cockpit.Core.Sensing;

/// <summary>Where an axis points, and how the device is rolled about it.</summary>
/// <param name="Azimuth">From the sensor's north; null where the axis is vertical.</param>
/// <param name="Elevation">Up positive.</param>
/// <param name="Roll">Clockwise as seen from behind, from world up to the device's own up; null where the axis is vertical.</param>
public readonly record struct AxisDirection(Angle? Azimuth, Angle Elevation, Angle? Roll)
{
    private const double Vertical = 1e-9;

    /// <summary>From two vectors of the world (east, north, up).</summary>
    /// <param name="along">The axis, length one.</param>
    /// <param name="upwards">What counts as the device's own up, length one, square to the axis.</param>
    public static AxisDirection Of((double X, double Y, double Z) along, (double X, double Y, double Z) upwards)
    {
        double level = Math.Sqrt((along.X * along.X) + (along.Y * along.Y));
        Angle elevation = Angle.FromRadians(Math.Atan2(along.Z, level));
        return level <= Vertical
            ? new AxisDirection(null, elevation, null)
            : new AxisDirection(
                Angle.FromRadians(Math.Atan2(along.X, along.Y)).WrappedToTurn(),
                elevation,
                Angle.FromRadians(Math.Atan2(((upwards.X * along.Y) - (upwards.Y * along.X)) / level, upwards.Z / level)));
    }

    /// <summary>The axis of a dish to which the device is fixed askew.</summary>
    /// <param name="right">How far the dish points to the right of the device's axis, in the device's own frame.</param>
    /// <param name="up">How far above it.</param>
    /// <returns>The dish; the direction itself where it is vertical.</returns>
    public AxisDirection Mounted(Angle right, Angle up)
    {
        if (Azimuth is not { } azimuth || Roll is not { } roll)
        {
            return this;
        }

        (double sa, double ca) = Math.SinCos(azimuth.Radians);
        (double se, double ce) = Math.SinCos(Elevation.Radians);
        (double sr, double cr) = Math.SinCos(roll.Radians);
        (double X, double Y, double Z) level = (ca, -sa, 0.0);
        (double X, double Y, double Z) upright = (-sa * se, -ca * se, ce);
        double r = right.Sin() * up.Cos();
        double f = right.Cos() * up.Cos();
        double u = up.Sin();
        double Part(double forward, double l, double p) => (r * ((cr * l) - (sr * p))) + (f * forward) + (u * ((sr * l) + (cr * p)));
        double UpPart(double l, double p) => (sr * l) + (cr * p);
        return Of(
            (Part(sa * ce, level.X, upright.X), Part(ca * ce, level.Y, upright.Y), Part(se, level.Z, upright.Z)),
            (UpPart(level.X, upright.X), UpPart(level.Y, upright.Y), UpPart(level.Z, upright.Z)));
    }

    /// <summary>Where an arrow that means "to the right, seen from behind" points on a page of the device: clockwise from the page's right.</summary>
    /// <param name="screen">How far the picture is turned: 0, 90, 180, 270 degrees.</param>
    public Angle? ArrowRightOnPage(Angle screen) => Roll is { } roll ? (-(roll + screen)).WrappedToHalfTurn() : null;
}
