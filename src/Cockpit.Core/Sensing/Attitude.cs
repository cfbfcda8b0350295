using Cockpit.Core.Units;

namespace Cockpit.Core.Sensing;

/// <summary>How a device is turned: a unit quaternion that takes vectors of the device to vectors of the world (east, north, up). Pure.</summary>
/// <remarks>
/// Device: x to the right edge, y to the top edge, z out of the screen, fixed to the case. Sources: W3C "Device Orientation and Motion" and
/// "Orientation Sensor". Angles are never averaged nor subtracted: near upright one degree of roll moves alpha by any amount.
/// </remarks>
/// <param name="X">First element of the vector part.</param>
/// <param name="Y">Second element of the vector part.</param>
/// <param name="Z">Third element of the vector part.</param>
/// <param name="W">Scalar part; q and -q are the same attitude.</param>
public readonly record struct Attitude(double X, double Y, double Z, double W)
{
    /// <summary>A quaternion further than this from length one is no attitude.</summary>
    private const double MostOff = 0.1;

    /// <summary>Flat on a table, screen up, top to the north.</summary>
    public static Attitude Identity => new(0, 0, 0, 1);

    /// <summary>From the angles of the device orientation events: intrinsic Z-X'-Y''.</summary>
    /// <param name="alpha">About z, against the compass.</param>
    /// <param name="beta">About x.</param>
    /// <param name="gamma">About y.</param>
    public static Attitude FromDeviceAngles(Angle alpha, Angle beta, Angle gamma) =>
        About(2, alpha) * About(0, beta) * About(1, gamma);

    /// <summary>From heading, pitch and roll of something that looks along its y axis (aircraft's sense).</summary>
    /// <param name="heading">Clockwise from north.</param>
    /// <param name="pitch">Up positive.</param>
    /// <param name="roll">Clockwise as seen from behind.</param>
    public static Attitude FromHeading(Angle heading, Angle pitch, Angle roll) => FromDeviceAngles(-heading, pitch, roll);

    /// <summary>From the four numbers of a sensor, of any length near one.</summary>
    /// <returns>Null where they are no attitude.</returns>
    public static Attitude? FromElements(double x, double y, double z, double w)
    {
        double length = Math.Sqrt((x * x) + (y * y) + (z * z) + (w * w));
        return Math.Abs(length - 1.0) <= MostOff ? new Attitude(x / length, y / length, z / length, w / length) : null;
    }

    /// <summary>From a quaternion in the frame of the screen, whose picture is turned.</summary>
    /// <param name="screen">The quaternion of a sensor with the reference frame "screen".</param>
    /// <param name="angle">Angle of the screen: 0, 90, 180, 270 degrees.</param>
    public static Attitude FromScreenFrame(Attitude screen, Angle angle) => screen * About(2, angle);

    /// <summary>Alpha of a device whose own zero is arbitrary, from the compass heading of its top edge.</summary>
    /// <param name="heading">Heading of the top edge, clockwise from north.</param>
    public static Angle AlphaOfHeading(Angle heading) => (-heading).WrappedToTurn();

    /// <summary>One turn after another: this one in the frame of the first.</summary>
    public static Attitude operator *(Attitude first, Attitude then) => new(
        (first.W * then.X) + (first.X * then.W) + (first.Y * then.Z) - (first.Z * then.Y),
        (first.W * then.Y) - (first.X * then.Z) + (first.Y * then.W) + (first.Z * then.X),
        (first.W * then.Z) + (first.X * then.Y) - (first.Y * then.X) + (first.Z * then.W),
        (first.W * then.W) - (first.X * then.X) - (first.Y * then.Y) - (first.Z * then.Z));

    /// <summary>Where an axis of the device points.</summary>
    /// <param name="axis">Which.</param>
    public AxisDirection Direction(DeviceAxis axis)
    {
        (double X, double Y, double Z) along = axis switch
        {
            DeviceAxis.Camera => Turned(0, 0, -1),
            DeviceAxis.Top => Turned(0, 1, 0),
            DeviceAxis.Screen => Turned(0, 0, 1),
            _ => Turned(1, 0, 0),
        };
        (double X, double Y, double Z) upwards = axis is DeviceAxis.Camera or DeviceAxis.Screen ? Turned(0, 1, 0) : Turned(0, 0, 1);
        return AxisDirection.Of(along, upwards);
    }

    /// <summary>The angle of the turn between two attitudes.</summary>
    /// <param name="other">The other.</param>
    public Angle Apart(Attitude other)
    {
        double dot = Math.Abs((X * other.X) + (Y * other.Y) + (Z * other.Z) + (W * other.W));
        return Angle.FromRadians(2.0 * Math.Acos(Math.Min(1.0, dot)));
    }

    private static Attitude About(int axis, Angle angle)
    {
        (double sin, double cos) = Math.SinCos(0.5 * angle.Radians);
        return axis switch
        {
            0 => new Attitude(sin, 0, 0, cos),
            1 => new Attitude(0, sin, 0, cos),
            _ => new Attitude(0, 0, sin, cos),
        };
    }

    private (double X, double Y, double Z) Turned(double x, double y, double z)
    {
        double tx = 2.0 * ((Y * z) - (Z * y));
        double ty = 2.0 * ((Z * x) - (X * z));
        double tz = 2.0 * ((X * y) - (Y * x));
        return (x + (W * tx) + (Y * tz) - (Z * ty), y + (W * ty) + (Z * tx) - (X * tz), z + (W * tz) + (X * ty) - (Y * tx));
    }
}

/// <summary>The axes of a device that may lie along the dish.</summary>
public enum DeviceAxis
{
    /// <summary>The way the back camera looks: -z.</summary>
    Camera = 0,

    /// <summary>The top edge: +y, the phone flat on the boom.</summary>
    Top = 1,

    /// <summary>Out of the screen: +z.</summary>
    Screen = 2,

    /// <summary>The right edge: +x.</summary>
    Right = 3,
}
