namespace Cockpit.Core.Dsp;

/// <summary>What is in the band of one block.</summary>
/// <param name="Kind">The kind of signal.</param>
/// <param name="SymbolRate">Its nominal symbols a second; 0 where it has none.</param>
/// <param name="Noise">Noise floor: power of white noise of this density in the whole band, full scale 1 for each component.</param>
/// <param name="Power">Power of the whole wave, also what lies outside the band; 0 where there is no signal.</param>
/// <param name="OffsetHz">Its carrier; null where there is none or it is not seen.</param>
/// <param name="Confidence">How sure the kind is, 0 to 1: a half at six standard errors of the signal's power.</param>
public readonly record struct Sighting(SignalKind Kind, double SymbolRate, double Noise, double Power, double? OffsetHz, double Confidence)
{
    /// <summary>Carrier to noise density, dB-Hz; null where there is no signal.</summary>
    /// <param name="sampleRate">Samples a second.</param>
    public double? CarrierToNoiseDbHz(double sampleRate) => Kind != SignalKind.None && Power > 0 && Noise > 0 ? 10 * Math.Log10(Power * sampleRate / Noise) : null;

    /// <summary>Es/N0 of the whole wave, dB; null where there is no signal or it has no symbols.</summary>
    /// <param name="sampleRate">Samples a second.</param>
    public double? SnrDb(double sampleRate) => SymbolRate > 0 && CarrierToNoiseDbHz(sampleRate) is { } cn0 ? cn0 - (10 * Math.Log10(SymbolRate)) : null;
}
