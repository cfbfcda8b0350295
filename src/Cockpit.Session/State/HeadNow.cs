using Cockpit.Core.Units;

namespace Cockpit.Session.State;

/// <summary>What the two scales of the head read. They were set by compass and inclinometer, so the beam is off them by the errors of those.</summary>
/// <param name="Azimuth">Scale of the pan, [0°, 360°).</param>
/// <param name="Elevation">Scale of the tilt, <see cref="Lowest"/> to <see cref="Highest"/>.</param>
public sealed record HeadNow(Angle Azimuth, Angle Elevation)
{
    /// <summary>Where the tilt stops.</summary>
    public static Angle Lowest { get; } = Angle.FromDegrees(-3.0);

    /// <summary>Where it stops at the top.</summary>
    public static Angle Highest { get; } = Angle.FromDegrees(90.0);

    /// <summary>After a turn.</summary>
    /// <param name="pan">Clockwise seen from above.</param>
    /// <param name="tilt">Upwards; the head stops at its ends.</param>
    public HeadNow Turned(Angle pan, Angle tilt)
    {
        Angle elevation = Elevation + tilt;
        return new HeadNow((Azimuth + pan).WrappedToTurn(), elevation < Lowest ? Lowest : elevation > Highest ? Highest : elevation);
    }
}
