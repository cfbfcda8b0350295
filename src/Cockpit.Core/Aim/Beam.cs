using Cockpit.Core.Units;

namespace Cockpit.Core.Aim;

/// <summary>The main lobe of a dish: a parabola in decibels down to a flat floor that stands for the side lobes.</summary>
/// <param name="HalfPowerWidth">Full width between the half-power points; positive.</param>
/// <remarks>
/// Loss = 12 dB (theta / width)^2, the usual approximation of a main lobe (ITU-R F.699 and S.465 family, 2.5e-3 (D/lambda theta)^2
/// with 70 lambda/D is 12.25; equation from memory). Good to 0.1 dB within half the width and to about 1 dB out to the full width;
/// beyond 1.29 widths it is a flat 20 dB, where a real dish has lobes and nulls.
/// </remarks>
public readonly record struct Beam(Angle HalfPowerWidth)
{
    /// <summary>Loss at the angle of one half-power width, dB.</summary>
    private const double LossAtWidthDb = 12.0;

    /// <summary>Where the main lobe is taken to end, dB; common practice, no source.</summary>
    private const double FloorDb = 20.0;

    /// <summary>The beam of a dish: half-power width 70° lambda / D.</summary>
    /// <param name="diameterMetres">Diameter, metres, positive.</param>
    /// <param name="carrier">Frequency received, positive.</param>
    /// <remarks>Real feeds give 65 to 75 (edge taper); common practice. Valid for D above about four wavelengths.</remarks>
    public static Beam Of(double diameterMetres, Frequency carrier)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(diameterMetres);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(carrier.Hertz, nameof(carrier));
        return new Beam(Angle.FromDegrees(70.0 * carrier.WavelengthMetres / diameterMetres));
    }

    /// <summary>What an aim error costs.</summary>
    /// <param name="offAxis">Angle between axis and target, either sign.</param>
    /// <returns>0 to 20 dB.</returns>
    public Decibels LossAt(Angle offAxis)
    {
        double widths = offAxis / HalfPowerWidth;
        return new Decibels(Math.Min(LossAtWidthDb * widths * widths, FloorDb));
    }

    /// <summary>How far from the axis a loss is reached.</summary>
    /// <param name="loss">Zero to 20 dB.</param>
    public Angle RadiusFor(Decibels loss)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(loss.Value, nameof(loss));
        ArgumentOutOfRangeException.ThrowIfGreaterThan(loss.Value, FloorDb, nameof(loss));
        return HalfPowerWidth * Math.Sqrt(loss.Value / LossAtWidthDb);
    }
}
