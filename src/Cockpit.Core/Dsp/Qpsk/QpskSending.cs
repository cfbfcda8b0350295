using Cockpit.Core.Dsp.Coding;

namespace Cockpit.Core.Dsp.Qpsk;

/// <summary>What a synthetic transmitter of coded QPSK sends.</summary>
/// <param name="Coding">What its encoder does.</param>
/// <param name="Exchanged">Whether I and Q are exchanged: s becomes j times its conjugate.</param>
/// <param name="QuarterTurns">By how many quarters of a turn the symbols are turned after that.</param>
/// <param name="Dual">Whether Reed-Solomon symbols are in the dual basis.</param>
public readonly record struct QpskSending(TransmitVariant Coding, bool Exchanged = false, int QuarterTurns = 0, bool Dual = true)
{
    /// <summary>Code 3/4, second generator inverted, everything else plain.</summary>
    public static QpskSending Punctured { get; } = new(new TransmitVariant(CodeRate.ThreeQuarters, InvertSecond: true, Differential: false));

    /// <summary>Code 1/2, second generator inverted, NRZ-M.</summary>
    public static QpskSending Plain { get; } = new(new TransmitVariant(CodeRate.Half, InvertSecond: true, Differential: true));
}
