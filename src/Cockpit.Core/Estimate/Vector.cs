namespace Cockpit.Core.Estimate;

/// <summary>A direction as a unit vector.</summary>
/// <param name="East">East.</param>
/// <param name="North">North.</param>
/// <param name="Up">Up.</param>
public readonly record struct Vector(double East, double North, double Up)
{
    private const double RadiansPerDegree = Math.PI / 180.0;

    /// <summary>The direction of azimuth and elevation, degrees.</summary>
    public static Vector Of(double azimuth, double elevation)
    {
        (double sinAzimuth, double cosAzimuth) = Math.SinCos(azimuth * RadiansPerDegree);
        (double sin, double cos) = Math.SinCos(elevation * RadiansPerDegree);
        return new Vector(cos * sinAzimuth, cos * cosAzimuth, sin);
    }

    /// <summary>A direction between this one and a near one.</summary>
    public Vector Towards(Vector other, double share) => new(
        East + (share * (other.East - East)),
        North + (share * (other.North - North)),
        Up + (share * (other.Up - Up)));

    /// <summary>Square of the angle to another direction, square degrees; exact to 0.1 % up to 60°.</summary>
    public double SquareTo(Vector other)
    {
        double near = 1.0 - ((East * other.East) + (North * other.North) + (Up * other.Up));
        const double SquareDegrees = 2.0 / (RadiansPerDegree * RadiansPerDegree);
        return near <= 0.0 ? 0.0 : SquareDegrees * near * (1.0 + (near * ((1.0 / 6.0) + (near * (2.0 / 45.0)))));
    }
}
