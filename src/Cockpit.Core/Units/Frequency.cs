namespace Cockpit.Core.Units;

/// <summary>A frequency or a shift of one; a positive Doppler shift is received higher.</summary>
/// <param name="Hertz">Hz.</param>
public readonly record struct Frequency(double Hertz) : IComparable<Frequency>
{
    /// <summary>Speed of light in vacuum, m/s, exact by the definition of the metre (SI brochure, 9th ed., 2.2).</summary>
    public const double SpeedOfLightMetresPerSecond = 299792458.0;

    /// <summary>Makes a frequency from megahertz.</summary>
    public static Frequency FromMegahertz(double megahertz) => new(megahertz * 1e6);

    /// <summary>The frequency in megahertz.</summary>
    public double Megahertz => Hertz / 1e6;

    /// <summary>The wavelength in vacuum, metres.</summary>
    public double WavelengthMetres => SpeedOfLightMetresPerSecond / Hertz;

    /// <inheritdoc/>
    public int CompareTo(Frequency other) => Hertz.CompareTo(other.Hertz);

    /// <summary>A shifted frequency.</summary>
    public static Frequency operator +(Frequency left, Frequency right) => new(left.Hertz + right.Hertz);

    /// <summary>The shift between two frequencies.</summary>
    public static Frequency operator -(Frequency left, Frequency right) => new(left.Hertz - right.Hertz);

    /// <summary>Whether the left frequency is lower.</summary>
    public static bool operator <(Frequency left, Frequency right) => left.Hertz < right.Hertz;

    /// <summary>Whether the left frequency is higher.</summary>
    public static bool operator >(Frequency left, Frequency right) => left.Hertz > right.Hertz;

    /// <summary>Whether the left frequency is not higher.</summary>
    public static bool operator <=(Frequency left, Frequency right) => left.Hertz <= right.Hertz;

    /// <summary>Whether the left frequency is not lower.</summary>
    public static bool operator >=(Frequency left, Frequency right) => left.Hertz >= right.Hertz;
}
