using Cockpit.Core.Units;

namespace Cockpit.Core.Link;

/// <summary>Gain, beam and pointing loss of a round dish.</summary>
public static class Dish
{
    /// <summary>Half-power beamwidth times diameter over wavelength, degrees: 70 by G. Maral, M. Bousquet, Satellite Communications Systems, ch. 5 (from memory); real feeds give 65 to 75.</summary>
    public const double BeamWidthFactorDegrees = 70.0;

    /// <summary>Gain over isotropic, η (π D / λ)².</summary>
    /// <param name="frequency">Carrier, positive.</param>
    /// <param name="diameterMetres">Diameter, metres, positive.</param>
    /// <param name="efficiency">Aperture efficiency, (0, 1].</param>
    public static Decibels Gain(Frequency frequency, double diameterMetres, double efficiency)
    {
        double turns = Math.PI * diameterMetres / frequency.WavelengthMetres;
        return Decibels.FromRatio(efficiency * turns * turns);
    }

    /// <summary>Half-power beamwidth, factor · λ / D.</summary>
    /// <param name="frequency">Carrier, positive.</param>
    /// <param name="diameterMetres">Diameter, metres, positive.</param>
    /// <param name="factorDegrees">Degrees; 70 unless measured.</param>
    public static Angle BeamWidth(Frequency frequency, double diameterMetres, double factorDegrees = BeamWidthFactorDegrees) =>
        Angle.FromDegrees(factorDegrees * frequency.WavelengthMetres / diameterMetres);

    /// <summary>Loss of a dish that points beside the target, 12 (offset / beamwidth)² dB.</summary>
    /// <param name="offset">Angle between axis and target.</param>
    /// <param name="beamWidth">Half-power beamwidth.</param>
    /// <remarks>Good to about half the beamwidth (3 dB), too large beyond the first null. Source: Maral and Bousquet, ch. 5 (from memory).</remarks>
    public static Decibels PointingLoss(Angle offset, Angle beamWidth)
    {
        double share = offset / beamWidth;
        return new(12.0 * share * share);
    }
}
