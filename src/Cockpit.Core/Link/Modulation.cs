using Cockpit.Core.Units;
using MathNet.Numerics;

namespace Cockpit.Core.Link;

/// <summary>From carrier over noise to bits and errors.</summary>
public static class Modulation
{
    /// <summary>Bit error ratio of uncoded BPSK, and of QPSK with Gray coding, without losses: erfc(√(Eb/N0)) / 2.</summary>
    /// <param name="bitEnergyToNoise">Eb/N0.</param>
    /// <remarks>Source: J. Proakis, Digital Communications.</remarks>
    public static double BitErrorRatio(Decibels bitEnergyToNoise) => 0.5 * SpecialFunctions.Erfc(Math.Sqrt(bitEnergyToNoise.Ratio));

    /// <summary>Carrier to noise density of a link, EIRP + G/T - loss - k.</summary>
    /// <param name="eirpDbw">EIRP, dB above one watt.</param>
    /// <param name="figureOfMerit">G/T of the station.</param>
    /// <param name="loss">All losses on the way.</param>
    /// <returns>dB-Hz.</returns>
    public static Decibels CarrierToNoiseDensity(Decibels eirpDbw, FigureOfMerit figureOfMerit, Decibels loss) =>
        new(eirpDbw.Value + figureOfMerit.DecibelsPerKelvin - loss.Value - Decibels.FromRatio(Noise.Boltzmann).Value);
}
