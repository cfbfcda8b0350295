using Cockpit.Core.Units;
using MathNet.Numerics;

namespace Cockpit.Core.Link;

/// <summary>Dish, feed and amplifier of the station, as settings.</summary>
public sealed record ReceivingDish
{
    /// <summary>Ground and rim glow like a body at this temperature, K (the reference temperature of noise figures).</summary>
    private const double GroundKelvin = Noise.ReferenceKelvin;

    /// <summary>Diameter, metres.</summary>
    public double DiameterMetres { get; init; } = 0.8;

    /// <summary>Aperture efficiency, (0, 1]; 0.5 is common practice for a hand-made feed.</summary>
    public double Efficiency { get; init; } = 0.5;

    /// <summary>Noise figure of the first amplifier.</summary>
    public Decibels NoiseFigure { get; init; } = new(0.7);

    /// <summary>Noise of everything behind the amplifier and of the feed's loss, K.</summary>
    public double ExtraKelvin { get; init; } = 12.0;

    /// <summary>Share of the feed's power that misses the dish, [0, 1); half of it is taken to see ground, half sky.</summary>
    public double SpillOver { get; init; } = 0.15;

    /// <summary>Loss by unequal polarisation: 0.5 dB for a fair circular feed, 3.0 dB for a linear one.</summary>
    public Decibels PolarisationLoss { get; init; } = new(0.5);

    /// <summary>How far a hand keeps the dish from the satellite on average.</summary>
    public Angle PointingError { get; init; } = Angle.FromDegrees(2.5);

    /// <summary>Half-power beamwidth at a frequency.</summary>
    public Angle BeamWidth(Frequency frequency) => Antenna.BeamWidth(frequency, DiameterMetres);

    /// <summary>Gain at a frequency.</summary>
    public Decibels Gain(Frequency frequency) => Antenna.Gain(frequency, DiameterMetres, Efficiency);

    /// <summary>System noise temperature, K: sky, spill-over, the part of the beam below the horizon, amplifier and rest.</summary>
    /// <param name="frequency">Carrier.</param>
    /// <param name="elevation">Of the axis.</param>
    /// <remarks>
    /// The beam is taken as a Gaussian of its half-power width; what lies below the horizon sees the ground. A rough model, optimistic for a home-made feed
    /// by 1 to 2 dB; no obstacles, no rain, no sun.
    /// </remarks>
    public double SystemKelvin(Frequency frequency, Angle elevation)
    {
        double below = ShareBelowHorizon(frequency, elevation);
        double main = ((1.0 - below) * Noise.SkyKelvin(elevation)) + (below * GroundKelvin);
        double spilt = 0.5 * (GroundKelvin + Noise.SkyKelvin(elevation));
        return ((1.0 - SpillOver) * main) + (SpillOver * spilt) + Noise.TemperatureKelvin(NoiseFigure) + ExtraKelvin;
    }

    /// <summary>G/T at a frequency and an elevation.</summary>
    public FigureOfMerit FigureOfMerit(Frequency frequency, Angle elevation) =>
        Link.FigureOfMerit.From(Gain(frequency), SystemKelvin(frequency, elevation));

    // Standard normal distribution below -elevation / sigma; the half-power width of a Gaussian is sqrt(8 ln 2) sigma.
    private double ShareBelowHorizon(Frequency frequency, Angle elevation)
    {
        double sigma = BeamWidth(frequency).Radians / Math.Sqrt(8.0 * Math.Log(2.0));
        return 0.5 * SpecialFunctions.Erfc(elevation.Radians / (sigma * Math.Sqrt(2.0)));
    }
}
