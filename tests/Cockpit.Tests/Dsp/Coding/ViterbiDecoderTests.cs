using System.Runtime.Intrinsics.X86;
using Cockpit.Core.Chance;
using Cockpit.Core.Dsp.Coding;

namespace Cockpit.Tests.Dsp.Coding;

public sealed class ViterbiDecoderTests
{
    private const int Blocks = 40;

    [Theory]
    [InlineData(CodeRate.Half)]
    [InlineData(CodeRate.ThreeQuarters)]
    public void Coded_bits_without_noise_come_back_as_they_were(CodeRate rate) => Assert.Equal(0, Errors(rate, 40.0, new ViterbiDecoder()));

    // Theory: union bound with the weights of the code, J. Odenwalder (1976); 3/4 from Y. Yasuda et al., IEEE Trans. Commun. 32 (1984), 315. Both from memory.
    [Theory]
    [InlineData(CodeRate.Half, 3.0, 3e-4, 1.2e-3)]
    [InlineData(CodeRate.Half, 2.0, 3e-3, 1.2e-2)]
    [InlineData(CodeRate.ThreeQuarters, 4.0, 1e-4, 6e-4)]
    [InlineData(CodeRate.ThreeQuarters, 3.0, 3e-3, 1.5e-2)]
    public void The_share_of_wrong_bits_is_that_of_the_code(CodeRate rate, double bitEnergyToNoiseDb, double least, double most) =>
        Assert.InRange((double)Errors(rate, bitEnergyToNoiseDb, new ViterbiDecoder()) / (Blocks * ViterbiDecoder.BlockBits), least, most);

    [Fact]
    public void Vectors_and_the_plain_loop_decide_alike()
    {
        if (!Avx2.IsSupported)
        {
            return;
        }

        var random = new Xoshiro256(5);
        var vectors = new ViterbiDecoder(vectors: true);
        var plain = new ViterbiDecoder(vectors: false);
        sbyte[] soft = new sbyte[2 * ViterbiDecoder.BlockBits];
        byte[] one = new byte[ViterbiDecoder.BlockBits];
        byte[] other = new byte[ViterbiDecoder.BlockBits];
        for (int block = 0; block < 5; block++)
        {
            foreach (ref sbyte value in soft.AsSpan())
            {
                value = (sbyte)(random.NextBelow(63) - 31);
            }

            vectors.Decode(soft, one);
            plain.Decode(soft, other);
            Assert.Equal(one, other);
        }
    }

    [Fact]
    public void Decoding_allocates_nothing()
    {
        var decoder = new ViterbiDecoder();
        sbyte[] soft = new sbyte[2 * ViterbiDecoder.BlockBits];
        byte[] bits = new byte[ViterbiDecoder.BlockBits];
        decoder.Decode(soft, bits);
        long before = GC.GetAllocatedBytesForCurrentThread();
        decoder.Decode(soft, bits);
        Assert.Equal(before, GC.GetAllocatedBytesForCurrentThread());
    }

    private static int Errors(CodeRate rate, double bitEnergyToNoiseDb, ViterbiDecoder decoder)
    {
        var random = new Xoshiro256(7);
        var encoder = new ConvolutionalEncoder(new TransmitVariant(rate, false, false));
        double codedEnergy = Math.Pow(10.0, bitEnergyToNoiseDb / 10.0) * (rate == CodeRate.Half ? 0.5 : 0.75);
        double sigma = Math.Sqrt(0.5 / codedEnergy);
        byte[] sent = new byte[Blocks * ViterbiDecoder.BlockBits];
        sbyte[] soft = new sbyte[2 * sent.Length];
        byte[] coded = new byte[2];
        for (int i = 0; i < sent.Length; i++)
        {
            sent[i] = (byte)random.NextBelow(2);
            encoder.Encode(sent[i], coded);
            int next = 0;
            soft[2 * i] = ConvolutionalCode.FirstSent(rate, i % 3) ? Noisy(coded[next++]) : (sbyte)0;
            soft[(2 * i) + 1] = ConvolutionalCode.SecondSent(rate, i % 3) ? Noisy(coded[next]) : (sbyte)0;
        }

        byte[] decided = new byte[sent.Length];
        for (int block = 0; block < Blocks; block++)
        {
            decoder.Decode(
                soft.AsSpan(2 * block * ViterbiDecoder.BlockBits, 2 * ViterbiDecoder.BlockBits),
                decided.AsSpan(block * ViterbiDecoder.BlockBits, ViterbiDecoder.BlockBits));
        }

        return Enumerable.Range(0, sent.Length - ViterbiDecoder.Depth).Count(i => sent[i] != decided[i + ViterbiDecoder.Depth]);

        sbyte Noisy(int bit) => (sbyte)Math.Clamp(Math.Round(12.0 * (1 - (2 * bit) + (sigma * random.NextNormal()))), -31.0, 31.0);
    }
}
