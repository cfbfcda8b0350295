using Cockpit.Core.Aim;

namespace Cockpit.Core.Estimate;

/// <summary>Errors of one move.</summary>
/// <param name="Scale">Size made over size meant.</param>
/// <param name="OtherScale">The same of the second axis where both are turned one after the other.</param>
/// <param name="Sin">Sine of the error of direction.</param>
/// <param name="Cos">Its cosine.</param>
/// <param name="Right">Added sideways, degrees.</param>
/// <param name="Up">Added upwards, degrees.</param>
/// <param name="Wrong">The larger axis goes the wrong way.</param>
internal readonly record struct MoveError(double Scale, double OtherScale, double Sin, double Cos, double Right, double Up, bool Wrong)
{
    public static MoveError None { get; } = new(1.0, 1.0, 0.0, 1.0, 0.0, 0.0, false);
}

/// <summary>What a move does to the head, in the axes of the mount; degrees.</summary>
internal static class HeadMotion
{
    private const double Lowest = -3.0;
    private const double LargeTurn = 60.0;
    private const double LargeMove = 40.0;

    /// <summary>How much a turn of the pan moves the beam; never quite nothing.</summary>
    public static double PanShare(double elevation) => Math.Max(Math.Cos(elevation * (Math.PI / 180.0)), 0.03);

    /// <summary>Moves a direction.</summary>
    /// <param name="mount">In which axes.</param>
    /// <param name="azimuth">Azimuth of the head.</param>
    /// <param name="elevation">Elevation of the head.</param>
    /// <param name="first">Pan, or to the right.</param>
    /// <param name="second">Tilt, or up.</param>
    /// <param name="error">Errors of the hand.</param>
    public static void Move(Mount mount, ref double azimuth, ref double elevation, double first, double second, in MoveError error)
    {
        if (mount == Mount.Free)
        {
            (double right, double up) = Made(first, second, error, large: false);
            Free(ref azimuth, ref elevation, right, up);
            return;
        }

        double share = PanShare(elevation + (second / 2.0));
        bool large = Math.Abs(first) >= LargeTurn || Math.Abs(first) * share >= LargeMove;
        (double sideways, double upwards) = Made(first * share, second, error, large);
        azimuth += sideways / share;
        elevation = Math.Clamp(elevation + upwards, Lowest, 90.0);
    }

    private static (double Right, double Up) Made(double right, double up, in MoveError error, bool large)
    {
        if (error.Wrong)
        {
            (right, up) = Math.Abs(right) > Math.Abs(up) ? (-right, up) : (right, -up);
        }

        return large
            ? ((right * error.Scale) + error.Right, (up * error.OtherScale) + error.Up)
            : ((error.Scale * ((right * error.Cos) - (up * error.Sin))) + error.Right, (error.Scale * ((right * error.Sin) + (up * error.Cos))) + error.Up);
    }

    private static void Free(ref double azimuth, ref double elevation, double right, double up)
    {
        (Units.Angle newAzimuth, Units.Angle newElevation) = AimErrors.Moved(
            Units.Angle.FromDegrees(azimuth), Units.Angle.FromDegrees(elevation), Units.Angle.FromDegrees(right), Units.Angle.FromDegrees(up));
        double turn = newAzimuth.Degrees - azimuth;
        azimuth += turn - (360.0 * Math.Round(turn / 360.0));
        elevation = newElevation.Degrees;
    }
}
