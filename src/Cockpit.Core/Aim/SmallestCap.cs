using System.Runtime.CompilerServices;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;

namespace Cockpit.Core.Aim;

/// <summary>A direction as a unit vector: east, north, up.</summary>
internal readonly record struct Direction(double East, double North, double Up)
{
    public static Direction Of(LookAngles look) => Of(look.Azimuth, look.Elevation);

    public static Direction Of(Angle azimuth, Angle elevation)
    {
        (double sinAz, double cosAz) = Math.SinCos(azimuth.Radians);
        (double sinEl, double cosEl) = Math.SinCos(elevation.Radians);
        return new Direction(sinAz * cosEl, cosAz * cosEl, sinEl);
    }

    public Angle Azimuth => Angle.FromRadians(Math.Atan2(East, North)).WrappedToTurn();

    public Angle Elevation => Angle.FromRadians(Math.Atan2(Up, Math.Sqrt((East * East) + (North * North))));

    public double Dot(Direction other) => (East * other.East) + (North * other.North) + (Up * other.Up);

    public Direction Cross(Direction other) => new(
        (North * other.Up) - (Up * other.North),
        (Up * other.East) - (East * other.Up),
        (East * other.North) - (North * other.East));

    public static Direction operator +(Direction left, Direction right) =>
        new(left.East + right.East, left.North + right.North, left.Up + right.Up);

    public static Direction operator -(Direction left, Direction right) =>
        new(left.East - right.East, left.North - right.North, left.Up - right.Up);

    /// <summary>The same direction with length one; null for the zero vector.</summary>
    public Direction? Unit()
    {
        double length = Math.Sqrt(Dot(this));
        return length > 1e-150 ? new Direction(East / length, North / length, Up / length) : null;
    }
}

/// <summary>A cap of the sphere: all directions within an angle of its axis.</summary>
/// <param name="Axis">Its middle.</param>
/// <param name="CosRadius">Cosine of its angular radius.</param>
internal readonly record struct Cap(Direction Axis, double CosRadius)
{
    /// <summary>Rounding of a dot product of unit vectors; 2e-13 radians at a radius of 3°.</summary>
    internal const double Slack = 1e-14;

    public bool Holds(Direction point) => Axis.Dot(point) >= CosRadius - Slack;
}

/// <summary>The smallest cap around directions that lie within a hemisphere.</summary>
/// <remarks>
/// It is fixed by two or three of them. From such a support the farthest outsider is taken in and the support of the
/// four is found by trial; the radius grows at each exchange, so the exchange ends at the exact answer. This is the
/// smallest enclosing ball by pivoting (B. Gaertner, Fast and Robust Smallest Enclosing Balls, ESA 1999; its plane
/// section with the sphere is the cap).
/// </remarks>
internal static class SmallestCap
{
    /// <summary>The smallest cap; stops early when it is seen to be larger than the limit.</summary>
    /// <param name="points">At least one direction.</param>
    /// <param name="cosLimit">Cosine of the largest radius of interest; -1 for the smallest cap whatever its size.</param>
    /// <returns>The cap, or null when it is larger than the limit.</returns>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)] // a listing is over before the runtime would get round to it
    public static Cap? Around(ReadOnlySpan<Direction> points, double cosLimit = -1.0)
    {
        Span<Direction> support = [points[0], points[^1], points[0]];
        int count = 2;
        Cap cap = Through(support[0], support[1]) ?? new Cap(points[0], 1.0);
        while (cap.CosRadius >= cosLimit - Cap.Slack)
        {
            int farthest = Farthest(points, cap.Axis);
            if (cap.Holds(points[farthest]))
            {
                return cap;
            }

            if (Exchange(support, ref count, points[farthest]) is not { } larger || larger.CosRadius >= cap.CosRadius)
            {
                // Rounding has the last word: nothing larger was found, so open the cap to its farthest point.
                double opened = cap.Axis.Dot(points[farthest]);
                return opened >= cosLimit - Cap.Slack ? cap with { CosRadius = opened } : null;
            }

            cap = larger;
        }

        return null;
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)] // a listing is over before the runtime would get round to it
    private static int Farthest(ReadOnlySpan<Direction> points, Direction axis)
    {
        int farthest = 0;
        double least = double.PositiveInfinity;
        for (int i = 0; i < points.Length; i++)
        {
            double dot = axis.Dot(points[i]);
            if (dot < least)
            {
                least = dot;
                farthest = i;
            }
        }

        return farthest;
    }

    /// <summary>The smallest cap of the support and an outsider, which must lie on its edge; the support is replaced.</summary>
    private static Cap? Exchange(Span<Direction> support, ref int count, Direction outsider)
    {
        Span<Direction> old = [support[0], support[1], support[2]];
        Cap? best = null;
        int oldCount = count;
        for (int i = 0; i < oldCount; i++)
        {
            if (Through(old[i], outsider) is { } pair && HoldsAll(pair, old[..oldCount]) && !(best?.CosRadius >= pair.CosRadius))
            {
                best = pair;
                (support[0], support[1], count) = (old[i], outsider, 2);
            }

            for (int j = i + 1; j < oldCount; j++)
            {
                if (Through(old[i], old[j], outsider) is { } three && HoldsAll(three, old[..oldCount]) && !(best?.CosRadius >= three.CosRadius))
                {
                    best = three;
                    (support[0], support[1], support[2], count) = (old[i], old[j], outsider, 3);
                }
            }
        }

        return best;
    }

    private static bool HoldsAll(Cap cap, ReadOnlySpan<Direction> points)
    {
        foreach (Direction point in points)
        {
            if (!cap.Holds(point))
            {
                return false;
            }
        }

        return true;
    }

    private static Cap? Through(Direction a, Direction b) =>
        (a + b).Unit() is { } axis ? new Cap(axis, Math.Min(axis.Dot(a), axis.Dot(b))) : null;

    private static Cap? Through(Direction a, Direction b, Direction c)
    {
        if ((b - a).Cross(c - a).Unit() is not { } normal)
        {
            return null;
        }

        Direction axis = normal.Dot(a) < 0.0 ? new Direction(-normal.East, -normal.North, -normal.Up) : normal;
        return new Cap(axis, Math.Min(axis.Dot(a), Math.Min(axis.Dot(b), axis.Dot(c))));
    }
}
