using Cockpit.Core.Dsp;
using Cockpit.Core.Chance;
using MathNet.Numerics;
using MathNet.Numerics.IntegralTransforms;

namespace Cockpit.Tests.Dsp;

public sealed class FftTests
{
    [Theory]
    [InlineData(16)]
    [InlineData(32)]
    [InlineData(64)]
    [InlineData(2048)]
    [InlineData(4096)]
    [InlineData(32768)]
    public void A_transform_equals_the_library_s_to_single_precision(int size)
    {
        Xoshiro256 chance = new(7);
        Complex32[] expected = [.. Enumerable.Range(0, size).Select(_ => new Complex32((float)chance.NextNormal(), (float)chance.NextNormal()))];
        float[] re = [.. expected.Select(z => z.Real)];
        float[] im = [.. expected.Select(z => z.Imaginary)];

        Fft fft = new(size);
        fft.Forward(re, im);
        Fourier.Forward(expected, FourierOptions.NoScaling);

        double worst = 0;
        for (int f = 0; f < size; f++)
        {
            int at = fft.Order[f];
            worst = Math.Max(worst, (expected[f] - new Complex32(re[at], im[at])).Magnitude);
        }

        Assert.True(worst < 2e-6 * Math.Sqrt(size) * Math.Log2(size), $"largest difference {worst}");
    }

    [Fact]
    public void A_size_that_is_no_power_of_two_is_refused() => Assert.Throws<ArgumentException>(() => new Fft(48));
}
