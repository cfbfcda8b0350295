using System.Collections.Immutable;
using Cockpit.Core.Units;

namespace Cockpit.Core.Link;

/// <summary>One stage of a receiver.</summary>
/// <param name="NoiseFigure">Noise figure; of a passive stage at 290 K, its loss.</param>
/// <param name="Gain">Gain; negative of a passive stage.</param>
public readonly record struct AmplifierStage(Decibels NoiseFigure, Decibels Gain);

/// <summary>Noise temperatures and noise powers.</summary>
public static class Noise
{
    /// <summary>Boltzmann's constant, J/K, exact (SI brochure, 9th ed., 2.2).</summary>
    public const double Boltzmann = 1.380649e-23;

    /// <summary>Reference temperature of noise figures, K (IEEE definition).</summary>
    public const double ReferenceKelvin = 290.0;

    /// <summary>Cosmic background, K, rounded (measured 2.725 K).</summary>
    public const double CosmicKelvin = 2.7;

    /// <summary>Mean radiating temperature of the atmosphere, K (275 K, from memory; ITU-R P.372 has the brightness curves).</summary>
    public const double AtmosphereKelvin = 275.0;

    /// <summary>Noise temperature of an amplifier, 290 K (F - 1).</summary>
    /// <param name="noiseFigure">Its noise figure.</param>
    /// <returns>K.</returns>
    public static double TemperatureKelvin(Decibels noiseFigure) => ReferenceKelvin * (noiseFigure.Ratio - 1.0);

    /// <summary>Noise factor of stages in a row (Friis).</summary>
    /// <param name="stages">From the antenna on.</param>
    /// <returns>The factor F as a ratio, not in dB.</returns>
    public static double CascadeFactor(ImmutableArray<AmplifierStage> stages)
    {
        double factor = 1.0;
        double gain = 1.0;
        foreach (AmplifierStage stage in stages)
        {
            factor += (stage.NoiseFigure.Ratio - 1.0) / gain;
            gain *= stage.Gain.Ratio;
        }

        return factor;
    }

    /// <summary>Noise temperature of a receiver from a hot and a cold source (Y factor).</summary>
    /// <param name="hotKelvin">Temperature of the hot source, K.</param>
    /// <param name="coldKelvin">Temperature of the cold source, K.</param>
    /// <param name="y">Measured rise of the output from cold to hot, more than 0 dB.</param>
    /// <returns>K.</returns>
    public static double FromYFactorKelvin(double hotKelvin, double coldKelvin, Decibels y) =>
        (hotKelvin - (y.Ratio * coldKelvin)) / (y.Ratio - 1.0);

    /// <summary>Noise power k T B.</summary>
    /// <param name="kelvin">Temperature, K, positive.</param>
    /// <param name="bandwidth">Noise bandwidth, positive.</param>
    public static Dbm Power(double kelvin, Frequency bandwidth) =>
        new(Decibels.FromRatio(Boltzmann * kelvin * bandwidth.Hertz).Value + 30.0);

    /// <summary>Brightness of the clear sky: atmosphere before the cosmic background.</summary>
    /// <param name="elevation">Above the horizon; the atmosphere is held below 2°.</param>
    /// <returns>K, without ground and without the galaxy.</returns>
    /// <remarks>A rough model; 3 K above 10°, 30 % below.</remarks>
    public static double SkyKelvin(Angle elevation)
    {
        double passed = (-PathLoss.Atmosphere(elevation)).Ratio;
        return (AtmosphereKelvin * (1.0 - passed)) + (CosmicKelvin * passed);
    }

    /// <summary>Noise temperature that a passive loss adds, referred to its input, (L - 1) T.</summary>
    /// <param name="loss">The loss, positive.</param>
    /// <param name="physicalKelvin">Its physical temperature, K.</param>
    /// <returns>K.</returns>
    public static double AttenuatorKelvin(Decibels loss, double physicalKelvin) => (loss.Ratio - 1.0) * physicalKelvin;

    /// <summary>System noise temperature at the input of the receiver behind a lossy line.</summary>
    /// <param name="antennaKelvin">Antenna temperature, K.</param>
    /// <param name="lineLoss">Loss between antenna and receiver.</param>
    /// <param name="physicalKelvin">Physical temperature of the line, K.</param>
    /// <param name="noiseFigure">Noise figure of the receiver.</param>
    /// <returns>K.</returns>
    public static double SystemKelvin(double antennaKelvin, Decibels lineLoss, double physicalKelvin, Decibels noiseFigure) =>
        (antennaKelvin / lineLoss.Ratio) + (physicalKelvin * (1.0 - (1.0 / lineLoss.Ratio))) + TemperatureKelvin(noiseFigure);
}
