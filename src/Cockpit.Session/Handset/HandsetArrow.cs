using Cockpit.Core.Sensing;
using Cockpit.Core.Units;

namespace Cockpit.Session.Handset;

/// <summary>Where a move points on the screen of a phone that is fixed to the dish. Pure.</summary>
public static class HandsetArrow
{
    /// <summary>The direction, clockwise from the top edge of the phone, degrees from 0 to 360.</summary>
    /// <param name="right">How far to the right, seen from behind.</param>
    /// <param name="up">How far upwards.</param>
    /// <param name="roll">How the phone is rolled about the axis along the dish, clockwise seen from behind; null = it is not known, taken as none.</param>
    /// <param name="axis">Which axis of the phone lies along the dish.</param>
    public static double Of(double right, double up, Angle? roll, DeviceAxis axis)
    {
        double fromUp = Math.Atan2(right, up) * 180.0 / Math.PI;
        double turned = fromUp - (roll?.Degrees ?? 0.0);
        double onPage = axis switch
        {
            DeviceAxis.Camera => turned,

            // The screen looks where the dish looks: from before it left and right are exchanged.
            DeviceAxis.Screen => -turned,

            // The phone lies flat: its right edge, or its top edge, is forward, and forward stands for up.
            DeviceAxis.Right => fromUp + 90.0,
            _ => fromUp,
        };
        double wrapped = onPage % 360.0;
        return wrapped < 0.0 ? wrapped + 360.0 : wrapped;
    }

    /// <summary>Whether the phone lies along the dish with an edge.</summary>
    public static bool IsFlat(DeviceAxis axis) => axis is DeviceAxis.Top or DeviceAxis.Right;
}
