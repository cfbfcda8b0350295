using Cockpit.Core.Aim;
using Cockpit.Core.Units;

namespace Cockpit.Session.State;

/// <summary>The two amounts of a move in the axes in which the hand makes it: the one unit of screen, voice and lines.</summary>
/// <param name="Side">To the right: degrees of pan, or degrees as seen from behind.</param>
/// <param name="Lift">Upwards: degrees of tilt, or degrees as seen from behind.</param>
public readonly record struct HandMove(Angle Side, Angle Lift);

/// <summary>Moves in the units of the hand.</summary>
public static class HandUnits
{
    /// <summary>The amounts of a move on a mount.</summary>
    public static HandMove By(this AimError move, Mount mount) =>
        mount == Mount.PanTilt ? new HandMove(move.Pan, move.Tilt) : new HandMove(move.Right, move.Up);

    /// <summary>Name of the sideways unit, in plain letters.</summary>
    public static string SideUnit(Mount mount) => mount == Mount.PanTilt ? "pan" : "°";

    /// <summary>Name of the upward unit, in plain letters.</summary>
    public static string LiftUnit(Mount mount) => mount == Mount.PanTilt ? "tilt" : "°";

    /// <summary>What the degrees are, in a few words.</summary>
    public static string Words(Mount mount) => mount == Mount.PanTilt ? "degrees of pan and tilt" : "degrees from behind";
}
