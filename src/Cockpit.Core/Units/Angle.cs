namespace Cockpit.Core.Units;

/// <summary>A plane angle, kept in radians. Nothing wraps unless a method says so.</summary>
/// <remarks>Made by a factory that names its unit, so that a bare number never becomes an angle of the other one.</remarks>
public readonly record struct Angle : IComparable<Angle>
{
    private const double DegreesPerRadian = 180.0 / Math.PI;

    private Angle(double radians) => Radians = radians;

    /// <summary>The angle, radians, any finite value.</summary>
    public double Radians { get; }

    /// <summary>No angle at all.</summary>
    public static Angle Zero => default;

    /// <summary>The same angle in degrees.</summary>
    public double Degrees => Radians * DegreesPerRadian;

    /// <summary>Makes an angle from degrees.</summary>
    public static Angle FromDegrees(double degrees) => new(degrees / DegreesPerRadian);

    /// <summary>Makes an angle from radians.</summary>
    public static Angle FromRadians(double radians) => new(radians);

    /// <summary>The sine.</summary>
    public double Sin() => Math.Sin(Radians);

    /// <summary>The cosine.</summary>
    public double Cos() => Math.Cos(Radians);

    /// <summary>Its size without its sign.</summary>
    public Angle Abs() => new(Math.Abs(Radians));

    /// <summary>The same direction in [0°, 360°).</summary>
    public Angle WrappedToTurn()
    {
        double turned = Radians - (Math.Tau * Math.Floor(Radians / Math.Tau));
        return new(turned >= Math.Tau ? 0.0 : turned);
    }

    /// <summary>The same direction in [-180°, 180°).</summary>
    public Angle WrappedToHalfTurn()
    {
        double turned = new Angle(Radians + Math.PI).WrappedToTurn().Radians - Math.PI;
        return new(turned);
    }

    /// <inheritdoc/>
    public int CompareTo(Angle other) => Radians.CompareTo(other.Radians);

    /// <summary>The sum, not wrapped.</summary>
    public static Angle operator +(Angle left, Angle right) => new(left.Radians + right.Radians);

    /// <summary>The difference, not wrapped.</summary>
    public static Angle operator -(Angle left, Angle right) => new(left.Radians - right.Radians);

    /// <summary>The opposite sense.</summary>
    public static Angle operator -(Angle value) => new(-value.Radians);

    /// <summary>A multiple.</summary>
    public static Angle operator *(Angle value, double factor) => new(value.Radians * factor);

    /// <summary>A multiple.</summary>
    public static Angle operator *(double factor, Angle value) => new(value.Radians * factor);

    /// <summary>A part.</summary>
    public static Angle operator /(Angle value, double divisor) => new(value.Radians / divisor);

    /// <summary>How many times one angle holds another.</summary>
    public static double operator /(Angle left, Angle right) => left.Radians / right.Radians;

    /// <summary>Whether the left angle is smaller.</summary>
    public static bool operator <(Angle left, Angle right) => left.Radians < right.Radians;

    /// <summary>Whether the left angle is larger.</summary>
    public static bool operator >(Angle left, Angle right) => left.Radians > right.Radians;

    /// <summary>Whether the left angle is not larger.</summary>
    public static bool operator <=(Angle left, Angle right) => left.Radians <= right.Radians;

    /// <summary>Whether the left angle is not smaller.</summary>
    public static bool operator >=(Angle left, Angle right) => left.Radians >= right.Radians;
}
