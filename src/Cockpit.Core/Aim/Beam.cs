using Cockpit.Core.Link;
using Cockpit.Core.Units;

namespace Cockpit.Core.Aim;

/// <summary>The beam of one dish on one carrier; its shape is that of <see cref="Antenna"/>.</summary>
/// <param name="HalfPowerWidth">Full width between the half-power points; positive.</param>
public readonly record struct Beam(Angle HalfPowerWidth)
{
    /// <summary>The beam of a dish.</summary>
    /// <param name="diameterMetres">Diameter, metres, positive.</param>
    /// <param name="carrier">Frequency received, positive.</param>
    public static Beam Of(double diameterMetres, Frequency carrier) => new(Antenna.BeamWidth(carrier, diameterMetres));

    /// <summary>What an aim error costs.</summary>
    /// <param name="offAxis">Angle between axis and target, either sign.</param>
    /// <returns>0 to 20 dB.</returns>
    public Decibels LossAt(Angle offAxis) => Antenna.PointingLoss(offAxis, HalfPowerWidth);

    /// <summary>How far from the axis a loss is reached.</summary>
    /// <param name="loss">Zero to 20 dB.</param>
    public Angle RadiusFor(Decibels loss) => Antenna.OffsetFor(loss, HalfPowerWidth);
}
