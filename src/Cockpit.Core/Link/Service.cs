using System.Collections.Immutable;
using Cockpit.Core.Units;

namespace Cockpit.Core.Link;

/// <summary>One kind of downlink near 1.7 GHz: its rate and what it needs.</summary>
/// <param name="Name">Our name for it, as typed.</param>
/// <param name="Words">What it is, in words.</param>
/// <param name="BitsPerSecond">Rate of the information bits, 1/s.</param>
/// <param name="RequiredBitEnergyToNoise">Eb/N0 for a clean picture in an ideal receiver.</param>
/// <param name="ModulationLoss">Power that does not go into the bits (residual carrier).</param>
/// <param name="ImplementationLoss">What a real receiver loses against theory.</param>
public sealed record Service(
    string Name,
    string Words,
    double BitsPerSecond,
    Decibels RequiredBitEnergyToNoise,
    Decibels ModulationLoss,
    Decibels ImplementationLoss)
{
    /// <summary>C/N0 that a clean picture needs, dB-Hz.</summary>
    public Decibels RequiredCarrierToNoiseDensity =>
        RequiredBitEnergyToNoise + ModulationLoss + ImplementationLoss + Decibels.FromRatio(BitsPerSecond);

    /// <summary>Uncoded split-phase, 665.4 kb/s, phase modulation of 67° with a residual carrier: 10.5 dB for a bit error ratio of 1e-6. Usable with specks from about 4 dB less.</summary>
    public static Service SplitPhase665k { get; } = new(
        "split-phase-665k", "split-phase, 665.4 kb/s, uncoded, residual carrier", 665.4e3, new(10.5), new(0.72), TypicalImplementationLoss);

    /// <summary>Manchester, 665.4 kb/s, block coded (7.0 dB, from memory).</summary>
    public static Service Manchester665k { get; } = new(
        "manchester-665k", "Manchester, 665.4 kb/s, block coded", 665.4e3, new(7.0), Decibels.Zero, TypicalImplementationLoss);

    /// <summary>QPSK, 2.3333 Msymbol/s, convolutional 3/4 and Reed-Solomon: 3.5 dB on 3.5 Mb/s (CCSDS 131.0-B for the coding; rates from memory).</summary>
    public static Service Qpsk2333k { get; } = new(
        "qpsk-2333k", "QPSK, 2.333 Msymbol/s, convolutional 3/4 and Reed-Solomon", 3.5e6, new(3.5), Decibels.Zero, TypicalImplementationLoss);

    /// <summary>The same coding at 2.8 Msymbol/s, 4.2 Mb/s (from memory).</summary>
    public static Service Qpsk2800k { get; } = new(
        "qpsk-2800k", "QPSK, 2.8 Msymbol/s, convolutional 3/4 and Reed-Solomon", 4.2e6, new(3.5), Decibels.Zero, TypicalImplementationLoss);

    /// <summary>All of them, by rate.</summary>
    public static ImmutableArray<Service> All { get; } = [SplitPhase665k, Manchester665k, Qpsk2333k, Qpsk2800k];

    /// <summary>The service of a name; null when there is none.</summary>
    /// <param name="name">As typed; case does not matter.</param>
    public static Service? Named(string name) =>
        All.FirstOrDefault(service => string.Equals(service.Name, name, StringComparison.OrdinalIgnoreCase));

    // Demodulator and hobby hardware together; an estimate, common practice is 1.5 to 3 dB.
    private static Decibels TypicalImplementationLoss => new(2.3);
}
