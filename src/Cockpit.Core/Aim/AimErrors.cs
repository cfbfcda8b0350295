using Cockpit.Core.Sky;
using Cockpit.Core.Units;

namespace Cockpit.Core.Aim;

/// <summary>Moves between directions on the sky.</summary>
public static class AimErrors
{
    /// <summary>The move that brings the dish to a target.</summary>
    /// <param name="dishAzimuth">True azimuth of the dish, any turn.</param>
    /// <param name="dishElevation">Elevation of the dish, [-90°, 90°].</param>
    /// <param name="targetAzimuth">True azimuth of the target, any turn.</param>
    /// <param name="targetElevation">Elevation of the target, [-90°, 90°].</param>
    /// <returns>
    /// Right and Up are the great circle from dish to target, its length split by its bearing in the dish's frame
    /// (azimuthal equidistant projection about the dish), so Total is the true angle at any elevation.
    /// Pan and Tilt are what the two axes of the head have to turn.
    /// </returns>
    /// <remarks>
    /// Error: rounding, below 1e-7 degrees. Source: J. P. Snyder, Map Projections - A Working Manual, USGS Prof. Paper
    /// 1395 (1987), eqs. 25-2 to 25-4 and 22-4, 22-5 with the dish as the centre (equation numbers from memory).
    /// </remarks>
    public static AimError Between(Angle dishAzimuth, Angle dishElevation, Angle targetAzimuth, Angle targetElevation)
    {
        Angle pan = (targetAzimuth - dishAzimuth).WrappedToHalfTurn();
        pan = pan.Radians <= -Math.PI ? Angle.FromRadians(Math.PI) : pan; // a half turn goes to the right
        (double sinPan, double cosPan) = Math.SinCos(pan.Radians);
        (double sinDish, double cosDish) = Math.SinCos(dishElevation.Radians);
        (double sinTarget, double cosTarget) = Math.SinCos(targetElevation.Radians);

        double right = cosTarget * sinPan;
        double up = (cosDish * sinTarget) - (sinDish * cosTarget * cosPan);
        double ahead = (sinDish * sinTarget) + (cosDish * cosTarget * cosPan);

        double sideways = Math.Sqrt((right * right) + (up * up));
        double total = Math.Atan2(sideways, ahead);

        // Exactly behind the dish every way round is as short; sideways is as good as any.
        double scale = sideways > 0.0 ? total / sideways : 0.0;
        Angle rightMove = sideways > 0.0 ? Angle.FromRadians(right * scale) : Angle.FromRadians(total);
        return new AimError(rightMove, Angle.FromRadians(up * scale), pan, targetElevation - dishElevation);
    }

    /// <summary>The move from one pointing to look angles.</summary>
    public static AimError Between(Pointing dish, LookAngles target)
    {
        ArgumentNullException.ThrowIfNull(dish);
        return Between(dish.Azimuth, dish.Elevation, target.Azimuth, target.Elevation);
    }

    /// <summary>The angle on the sky between two directions.</summary>
    /// <returns>[0°, 180°].</returns>
    public static Angle Separation(Angle azimuth, Angle elevation, Angle otherAzimuth, Angle otherElevation) =>
        Between(azimuth, elevation, otherAzimuth, otherElevation).Total;

    /// <summary>Where the dish points after a move in its own frame; undoes <see cref="Between(Angle, Angle, Angle, Angle)"/>.</summary>
    /// <returns>Azimuth in [0°, 360°), elevation in [-90°, 90°].</returns>
    public static (Angle Azimuth, Angle Elevation) Moved(Angle azimuth, Angle elevation, Angle right, Angle up)
    {
        double total = Math.Sqrt((right.Radians * right.Radians) + (up.Radians * up.Radians));
        double scale = total > 0.0 ? Math.Sin(total) / total : 1.0;
        double toRight = right.Radians * scale;
        double toUp = up.Radians * scale;
        double ahead = Math.Cos(total);

        (double sin, double cos) = Math.SinCos(elevation.Radians);
        double outward = (cos * ahead) - (sin * toUp);
        double height = (sin * ahead) + (cos * toUp);
        Angle turned = Angle.FromRadians(azimuth.Radians + Math.Atan2(toRight, outward));
        return (turned.WrappedToTurn(), Angle.FromRadians(Math.Atan2(height, Math.Sqrt((outward * outward) + (toRight * toRight)))));
    }
}
