using Cockpit.Core.Dsp;
using Cockpit.Core.Dsp.SplitPhase;
using Cockpit.Core.Link;
using Cockpit.Core.Units;
using MathNet.Numerics.Distributions;

namespace Cockpit.Checks.Signal;

/// <summary>Bits and sync words of the split-phase service in a receiver without loss that knows carrier, clock and place.</summary>
/// <remarks>
/// Each bit is antipodal: wrong with Q(sqrt(2 Eb/N0)) (J. Proakis, Digital Communications, chapter on optimum receivers for the additive
/// white Gaussian noise channel; from memory), Eb that of the data alone, without the residual carrier. A sync word is found where no more of
/// its sixty bits are wrong than are allowed (binomial).
/// </remarks>
public static class SyncTheory
{
    private const int Allowed = 12;

    /// <summary>Share of wrong bits.</summary>
    /// <param name="snrDb">Eb/N0 of the whole wave, dB.</param>
    public static double BitErrors(double snrDb) =>
        Modulation.BitErrorRatio(new Decibels(snrDb) + Decibels.FromRatio(1 - SignalFinder.ResidualCarrierShare));

    /// <summary>Share of sync words that are found in their place.</summary>
    /// <param name="snrDb">Eb/N0 of the whole wave, dB.</param>
    public static double Found(double snrDb) => Binomial.CDF(BitErrors(snrDb), MinorFrame.SyncBits, Allowed);
}
