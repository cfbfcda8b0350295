using Cockpit.Core.Chance;
using Cockpit.Core.Dsp.Coding;

namespace Cockpit.Core.Dsp.Qpsk;

/// <summary>Share of frames that the code itself lets through: symbols in exact time and phase, white noise, the same decoders.</summary>
public static class IdealDecoding
{
    private const int Frames = 150;

    /// <summary>The share, 0 to 1.</summary>
    /// <param name="rate">How much of the code is sent.</param>
    /// <param name="snrDb">Es/N0, dB.</param>
    /// <param name="seed">Of bits and noise.</param>
    public static double Share(CodeRate rate, double snrDb, ulong seed)
    {
        var variant = new TransmitVariant(rate, InvertSecond: false, Differential: false);
        var source = new QpskSymbolSource(new QpskSending(variant), new Xoshiro256(seed, 11));
        var noise = new Xoshiro256(seed, 12);
        var counter = new Counter();
        var bits = new FrameBits(counter);
        var soft = new SoftBits();
        soft.Start(new MarkerVariant(variant, Mirrored: false));
        bits.Start(differential: false);
        float[] i = new float[SymbolBlock.Length];
        float[] q = new float[SymbolBlock.Length];
        double snr = Math.Pow(10.0, snrDb / 10.0);
        double sigma = Math.Sqrt(0.5 / snr);
        while (counter.All < Frames)
        {
            for (int k = 0; k < i.Length; k++)
            {
                (float x, float y) = source.Next();
                (i[k], q[k]) = ((float)(x + (sigma * noise.NextNormal())), (float)(y + (sigma * noise.NextNormal())));
            }

            soft.Take(i, q, phase: 0.0, (float)(1.0 + (1.0 / snr)), bits);
        }

        return (double)counter.Good / counter.All;
    }

    private sealed class Counter : IDecodedSink
    {
        public int All { get; private set; }

        public int Good { get; private set; }

        public void Decoded(bool good, ReadOnlySpan<byte> octets)
        {
            All++;
            Good += good ? 1 : 0;
        }
    }
}
