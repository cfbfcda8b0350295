using Cockpit.Core.Units;

namespace Cockpit.Core.Link;

/// <summary>G/T of a receiving station.</summary>
/// <param name="DecibelsPerKelvin">dB/K.</param>
public readonly record struct FigureOfMerit(double DecibelsPerKelvin)
{
    /// <summary>From gain and system noise temperature.</summary>
    /// <param name="gain">Antenna gain.</param>
    /// <param name="systemKelvin">System noise temperature at the same point, K, positive.</param>
    public static FigureOfMerit From(Decibels gain, double systemKelvin) => new((gain - Decibels.FromRatio(systemKelvin)).Value);

    /// <summary>From the rise of the noise when the dish turns from cold sky to the sun, (Y - 1) 8 π k / (S λ²) with the correction for the sun's size.</summary>
    /// <param name="y">Measured rise, more than 0 dB.</param>
    /// <param name="fluxUnits">Solar flux at this frequency, solar flux units (1e-22 W/m²/Hz).</param>
    /// <param name="frequency">Frequency of the measurement.</param>
    /// <param name="beamWidth">Half-power beamwidth.</param>
    /// <param name="sunDiameter">Radio diameter of the sun, 0.5° to 0.6° near 1.7 GHz.</param>
    /// <remarks>8 π, not 4 π, because one polarisation takes half of the flux. Beam correction 1 + 0.38 (sun / beam)². Source: ITU-R S.733, by a public note that cites it.</remarks>
    public static FigureOfMerit FromSun(Decibels y, double fluxUnits, Frequency frequency, Angle beamWidth, Angle sunDiameter)
    {
        double lambda = frequency.WavelengthMetres;
        double size = sunDiameter / beamWidth;
        double correction = 1.0 + (0.38 * size * size);
        return new(Decibels.FromRatio((y.Ratio - 1.0) * 8.0 * Math.PI * Noise.Boltzmann * correction / (fluxUnits * 1e-22 * lambda * lambda)).Value);
    }

    /// <summary>Solar flux between two observed frequencies, straight in the logarithms (common practice).</summary>
    /// <param name="frequency">Where it is wanted.</param>
    /// <param name="lower">Lower observed frequency.</param>
    /// <param name="lowerFlux">Flux there, any unit.</param>
    /// <param name="upper">Upper observed frequency.</param>
    /// <param name="upperFlux">Flux there, the same unit.</param>
    /// <returns>The flux in that unit.</returns>
    public static double SolarFlux(Frequency frequency, Frequency lower, double lowerFlux, Frequency upper, double upperFlux) =>
        lowerFlux * Math.Pow(upperFlux / lowerFlux, Math.Log(frequency.Hertz / lower.Hertz) / Math.Log(upper.Hertz / lower.Hertz));
}
