using Cockpit.Core.Dsp.Coding;
using Cockpit.Core.Dsp.Qpsk;
using Cockpit.Core.Chance;
using CsCheck;

namespace Cockpit.Tests.Dsp.Qpsk;

public sealed class MarkerTemplateTests
{
    [Fact]
    public void Twenty_six_pairs_are_fixed_and_104_bits_in_three_punctured_frames()
    {
        Assert.Equal(52, MarkerTemplate.Of(CodeRate.Half, differential: false, 0).Bits.Length);
        Assert.Equal(104, Enumerable.Range(0, 3).Sum(frame => MarkerTemplate.Of(CodeRate.ThreeQuarters, differential: false, frame).Bits.Length));
    }

    [Fact]
    public void Three_punctured_frames_start_where_their_first_coded_bit_falls() =>
        Assert.Equal([0, 5461, 10923], Enumerable.Range(0, 3).Select(frame => MarkerTemplate.StartOf(CodeRate.ThreeQuarters, frame)));

    [Fact]
    public void The_fixed_bits_are_sent_whatever_is_in_the_frames() =>
        Gen.Select(Gen.ULong, Gen.Bool, Gen.Bool, Gen.Bool).Sample((seed, half, differential, inverted) =>
        {
            CodeRate rate = half ? CodeRate.Half : CodeRate.ThreeQuarters;
            var source = new QpskSymbolSource(new QpskSending(new TransmitVariant(rate, inverted, differential)), new Xoshiro256(seed));
            var symbols = Enumerable.Range(0, (int)QpskSymbolSource.StartOf(rate, 5)).Select(_ => source.Next()).ToArray();
            for (int number = 1; number < 4; number++)
            {
                int frame = half ? 0 : number % 3;
                int start = (int)QpskSymbolSource.StartOf(rate, number);
                int agreement = 0;
                MarkerTemplate template = MarkerTemplate.Of(rate, differential, frame);
                foreach (KnownBit bit in template.Bits)
                {
                    (float i, float q) = symbols[start + bit.Offset];
                    agreement += (bit.Quadrature ? q : i) * bit.Sign * (bit.Second && inverted ? -1.0f : 1.0f) > 0.0f ? 1 : -1;
                }

                Assert.Equal(template.Bits.Length, differential ? Math.Abs(agreement) : agreement);
            }
        }, iter: 12);
}
