using Cockpit.Core.Units;

namespace Cockpit.Core.Link;

/// <summary>A round dish as an antenna: gain, beam, and what pointing beside the target costs; the only model of it.</summary>
/// <remarks>
/// The main lobe is a parabola in decibels, 12 dB (offset / width)², the usual approximation (ITU-R F.699 and S.465 family,
/// 2.5e-3 (D/lambda theta)² with 70 lambda/D is 12.25; G. Maral, M. Bousquet, Satellite Communications Systems, ch. 5; both
/// from memory). Good to 0.1 dB within half the width and to about 1 dB out to the full width; beyond 1.29 widths it is a flat
/// 20 dB that stands for the side lobes, where a real dish has lobes and nulls.
/// </remarks>
public static class Antenna
{
    /// <summary>Half-power beamwidth times diameter over wavelength, degrees: 70 by Maral and Bousquet, ch. 5 (from memory); real feeds give 65 to 75.</summary>
    public const double BeamWidthFactorDegrees = 70.0;

    /// <summary>Where the main lobe is taken to end, dB; common practice, no source.</summary>
    public const double LargestLossDb = 20.0;

    /// <summary>Loss at the angle of one half-power width, dB.</summary>
    private const double LossAtWidthDb = 12.0;

    /// <summary>Gain over isotropic, η (π D / λ)².</summary>
    /// <param name="frequency">Carrier, positive.</param>
    /// <param name="diameterMetres">Diameter, metres, positive.</param>
    /// <param name="efficiency">Aperture efficiency, (0, 1].</param>
    public static Decibels Gain(Frequency frequency, double diameterMetres, double efficiency)
    {
        double turns = Math.PI * diameterMetres / frequency.WavelengthMetres;
        return Decibels.FromRatio(efficiency * turns * turns);
    }

    /// <summary>Half-power beamwidth, factor · λ / D; valid for D above about four wavelengths.</summary>
    /// <param name="frequency">Carrier, positive.</param>
    /// <param name="diameterMetres">Diameter, metres, positive.</param>
    /// <param name="factorDegrees">Degrees; 70 unless measured.</param>
    public static Angle BeamWidth(Frequency frequency, double diameterMetres, double factorDegrees = BeamWidthFactorDegrees)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(diameterMetres);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(frequency.Hertz, nameof(frequency));
        return Angle.FromDegrees(factorDegrees * frequency.WavelengthMetres / diameterMetres);
    }

    /// <summary>Loss of a dish that points beside the target.</summary>
    /// <param name="offset">Angle between axis and target, either sign.</param>
    /// <param name="beamWidth">Half-power beamwidth.</param>
    /// <returns>0 to 20 dB.</returns>
    public static Decibels PointingLoss(Angle offset, Angle beamWidth)
    {
        double share = offset / beamWidth;
        return new(Math.Min(LossAtWidthDb * share * share, LargestLossDb));
    }

    /// <summary>How far from the axis a loss is reached.</summary>
    /// <param name="loss">Zero to 20 dB.</param>
    /// <param name="beamWidth">Half-power beamwidth.</param>
    public static Angle OffsetFor(Decibels loss, Angle beamWidth)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(loss.Value, nameof(loss));
        ArgumentOutOfRangeException.ThrowIfGreaterThan(loss.Value, LargestLossDb, nameof(loss));
        return beamWidth * Math.Sqrt(loss.Value / LossAtWidthDb);
    }
}
