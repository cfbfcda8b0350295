using System.Runtime.CompilerServices;

namespace Cockpit.Core.Orbit.Theory;

/// <summary>Sine and cosine of small angles, for turning a known direction a little further.</summary>
internal static class Rotation
{
    /// <summary>Sine and cosine of an angle, radians; cheap when it is small.</summary>
    /// <remarks>Below 0.02 rad the Maclaurin series is cut where the next term is under 1e-18, less than the rounding of a double.</remarks>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    internal static (double Sin, double Cos) Of(double angle)
    {
        if (!(Math.Abs(angle) < 0.02))
        {
            return Math.SinCos(angle);
        }

        double x2 = angle * angle;
        double sin = angle * (1.0 - (x2 * (1.0 / 6.0 * (1.0 - (x2 * (1.0 / 20.0 * (1.0 - (x2 / 42.0))))))));
        double cos = 1.0 - (x2 * (0.5 * (1.0 - (x2 * (1.0 / 12.0 * (1.0 - (x2 * (1.0 / 30.0 * (1.0 - (x2 / 56.0))))))))));
        return (sin, cos);
    }

    /// <summary>A direction (sine, cosine) turned by an angle, radians.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    internal static (double Sin, double Cos) Turn(double sin, double cos, double by)
    {
        (double s, double c) = Of(by);
        return ((sin * c) + (cos * s), (cos * c) - (sin * s));
    }
}
