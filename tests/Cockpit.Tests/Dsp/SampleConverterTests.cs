using Cockpit.Core.Chance;
using Cockpit.Core.Dsp;
using Cockpit.Core.Dsp.Synthesis;

namespace Cockpit.Tests.Dsp;

public sealed class SampleConverterTests
{
    public static TheoryData<SampleFormat> Formats => [.. Enum.GetValues<SampleFormat>()];

    [Theory]
    [MemberData(nameof(Formats))]
    public void Samples_come_back_to_half_a_step(SampleFormat format)
    {
        Xoshiro256 chance = new(9);
        float[] i = [.. Enumerable.Range(0, 101).Select(_ => (float)((chance.NextUnit() * 1.9) - 0.95))];
        float[] q = [.. Enumerable.Range(0, 101).Select(_ => (float)((chance.NextUnit() * 1.9) - 0.95))];
        byte[] bytes = new byte[101 * format.BytesPerSample()];
        float[] i2 = new float[101], q2 = new float[101];

        SampleWriter.Write(format, i, q, bytes);
        SampleConverter.Convert(format, bytes, i2, q2);

        Assert.All(i.Zip(i2), p => Assert.Equal(p.First, p.Second, (0.501 * format.Step()) + 1e-7));
        Assert.All(q.Zip(q2), p => Assert.Equal(p.First, p.Second, (0.501 * format.Step()) + 1e-7));
    }

    [Theory]
    [InlineData(SampleFormat.Cu8, new byte[] { 0, 255, 1, 254 }, 2)]
    [InlineData(SampleFormat.Ci8, new byte[] { 0x80, 0x7F, 0x81, 0x7E }, 2)]
    [InlineData(SampleFormat.Ci16Le, new byte[] { 0xF8, 0x7F, 0x08, 0x80, 0xF7, 0x7F, 0x09, 0x80 }, 2)]
    public void Values_at_the_rails_count_as_clipped(SampleFormat format, byte[] bytes, int clipped)
    {
        float[] i = new float[2], q = new float[2];
        SampleConverter.Convert(format, bytes, i, q);

        Assert.Equal(clipped / 4.0, BlockStatistics.Of(new ComplexBlock(0, i, q), format).ClipShare);
    }

    [Fact]
    public void A_float_that_is_no_number_becomes_zero()
    {
        float[] i = new float[1], q = new float[1];
        byte[] bytes = [.. BitConverter.GetBytes(float.NaN), .. BitConverter.GetBytes(float.PositiveInfinity)];
        SampleConverter.Convert(SampleFormat.Cf32Le, bytes, i, q);

        Assert.Equal((0f, 0f), (i[0], q[0]));
    }
}
