namespace Cockpit.Core.Units;

/// <summary>A ratio of powers in decibels.</summary>
/// <param name="Value">dB.</param>
public readonly record struct Decibels(double Value) : IComparable<Decibels>
{
    /// <summary>Equal powers.</summary>
    public static Decibels Zero => default;

    /// <summary>Makes decibels from a ratio of powers; the ratio must be positive.</summary>
    public static Decibels FromRatio(double powerRatio) => new(10.0 * Math.Log10(powerRatio));

    /// <summary>The ratio of powers.</summary>
    public double Ratio => Math.Pow(10.0, Value / 10.0);

    /// <inheritdoc/>
    public int CompareTo(Decibels other) => Value.CompareTo(other.Value);

    /// <summary>One gain after another.</summary>
    public static Decibels operator +(Decibels left, Decibels right) => new(left.Value + right.Value);

    /// <summary>How much more.</summary>
    public static Decibels operator -(Decibels left, Decibels right) => new(left.Value - right.Value);

    /// <summary>The inverse ratio.</summary>
    public static Decibels operator -(Decibels value) => new(-value.Value);

    /// <summary>Whether the left ratio is smaller.</summary>
    public static bool operator <(Decibels left, Decibels right) => left.Value < right.Value;

    /// <summary>Whether the left ratio is larger.</summary>
    public static bool operator >(Decibels left, Decibels right) => left.Value > right.Value;

    /// <summary>Whether the left ratio is not larger.</summary>
    public static bool operator <=(Decibels left, Decibels right) => left.Value <= right.Value;

    /// <summary>Whether the left ratio is not smaller.</summary>
    public static bool operator >=(Decibels left, Decibels right) => left.Value >= right.Value;
}

/// <summary>An absolute power, decibels above one milliwatt.</summary>
/// <param name="Value">dBm.</param>
public readonly record struct Dbm(double Value)
{
    /// <summary>A power after a gain.</summary>
    public static Dbm operator +(Dbm power, Decibels gain) => new(power.Value + gain.Value);

    /// <summary>A power after a loss.</summary>
    public static Dbm operator -(Dbm power, Decibels loss) => new(power.Value - loss.Value);

    /// <summary>The ratio of two powers.</summary>
    public static Decibels operator -(Dbm left, Dbm right) => new(left.Value - right.Value);
}
