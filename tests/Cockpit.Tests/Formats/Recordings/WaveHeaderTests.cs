using System.Text;
using Cockpit.Core.Dsp;
using Cockpit.Core.Formats;
using Cockpit.Core.Formats.Recordings;

namespace Cockpit.Tests.Formats.Recordings;

public sealed class WaveHeaderTests
{
    private const uint Unknown = 0xFFFFFFFF;

    [Theory]
    [InlineData(1, 8, SampleFormat.Cu8)]
    [InlineData(1, 16, SampleFormat.Ci16Le)]
    [InlineData(1, 24, SampleFormat.Ci24Le)]
    [InlineData(1, 32, SampleFormat.Ci32Le)]
    [InlineData(3, 32, SampleFormat.Cf32Le)]
    public void Each_form_of_samples_is_known(ushort code, ushort bits, SampleFormat format)
    {
        SampleLayout layout = Good(Wave("RIFF", Format(code, 2, 3_000_000, bits), Chunk("data", new byte[48])));

        Assert.Equal(format, layout.Format);
        Assert.Equal(3_000_000, layout.SampleRate);
        Assert.Equal(44, layout.Offset);
    }

    [Theory]
    [InlineData(0u)]
    [InlineData(16u)]
    [InlineData(Unknown)]
    public void A_wrong_size_of_the_samples_means_to_the_end_of_the_file(uint told) =>
        Assert.Null(Good(Wave("RIFF", Format(1, 2, 2_400_000, 16), Chunk("data", [.. Enumerable.Repeat((byte)0x90, 64)], told))).Bytes);

    [Fact]
    public void A_chunk_behind_the_samples_ends_them() =>
        Assert.Equal(64, Good(Wave("RIFF", Format(1, 2, 2_400_000, 16), Chunk("data", new byte[64]), Chunk("LIST", new byte[10]))).Bytes);

    [Fact]
    public void Rf64_takes_its_sizes_from_ds64()
    {
        byte[] ds64 = [.. BitConverter.GetBytes(1000UL), .. BitConverter.GetBytes(64UL), .. BitConverter.GetBytes(16UL), .. BitConverter.GetBytes(0u)];
        byte[] file = Wave("RF64", Chunk("ds64", ds64), Format(1, 2, 3_000_000, 16), Chunk("data", new byte[64], Unknown), Chunk("LIST", new byte[4]));

        Assert.Equal(64, Good(file).Bytes);
    }

    [Fact]
    public void A_placeholder_and_an_odd_chunk_before_the_samples_are_passed_over()
    {
        SampleLayout layout = Good(Wave("RIFF", Chunk("JUNK", new byte[29]), Format(1, 2, 3_000_000, 8), Chunk("data", new byte[20])));

        Assert.Equal(12 + 8 + 30 + 24 + 8, layout.Offset);
    }

    [Fact]
    public void The_receiver_s_own_chunk_tells_time_and_frequency()
    {
        ushort[] start = [2026, 11, 3, 25, 12, 0, 1, 500];
        byte[] auxi = [.. start.SelectMany(BitConverter.GetBytes), .. start.SelectMany(BitConverter.GetBytes), .. BitConverter.GetBytes(1_701_300_000u)];
        SampleLayout layout = Good(Wave("RIFF", Format(1, 2, 3_000_000, 16), Chunk("auxi", auxi), Chunk("data", new byte[8])));

        Assert.Equal(1_701_300_000, layout.CentreHz);
        Assert.Equal(new DateTimeOffset(2026, 11, 25, 12, 0, 1, 500, TimeSpan.Zero), layout.Start);
    }

    [Theory]
    [InlineData(1, 1, 3_000_000u, 16, "1 channel(s)")]
    [InlineData(1, 2, 44_100u, 16, "44100 samples a second")]
    [InlineData(6, 2, 3_000_000u, 8, "code 6")]
    [InlineData(3, 2, 3_000_000u, 64, "64 bits")]
    public void What_cannot_be_used_is_refused_with_its_place(ushort code, ushort channels, uint rate, ushort bits, string words)
    {
        byte[] file = Wave("RIFF", Format(code, channels, rate, bits), Chunk("data", new byte[8]));
        Assert.False(WaveHeader.Read(file, file.Length, at => file[(int)at..], "take.wav").Try(out _, out ParseError? error));
        Assert.Contains("byte 12", error.Message, StringComparison.Ordinal);
        Assert.Contains(words, error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void No_damage_brings_anything_but_a_layout_or_a_sentence()
    {
        Cockpit.Core.Chance.Xoshiro256 chance = new(5);
        byte[] good = Wave("RF64", Chunk("ds64", new byte[28]), Format(1, 2, 3_000_000, 16), Chunk("auxi", new byte[36]), Chunk("data", new byte[64], Unknown));
        for (int run = 0; run < 20_000; run++)
        {
            byte[] bad = good[..(1 + chance.NextBelow(good.Length))];
            for (int k = 0; k < 3; k++)
            {
                bad[chance.NextBelow(bad.Length)] = (byte)chance.NextBelow(256);
            }

            Parsed<SampleLayout> read = WaveHeader.Read(bad, bad.Length, at => at < bad.Length ? bad[(int)at..] : [], "x");
            Assert.True(read.Value is not null || read.Error is { Message.Length: > 10 });
        }
    }

    private static SampleLayout Good(byte[] file)
    {
        Assert.True(WaveHeader.Read(file, file.Length, at => file[(int)at..], "take.wav").Try(out SampleLayout? layout, out ParseError? error), error?.Message);
        return layout;
    }

    private static byte[] Wave(string name, params byte[][] chunks) =>
        [.. Encoding.ASCII.GetBytes(name), .. BitConverter.GetBytes(Unknown), .. "WAVE"u8, .. chunks.SelectMany(c => c)];

    private static byte[] Chunk(string id, byte[] body, uint? told = null) =>
        [.. Encoding.ASCII.GetBytes(id), .. BitConverter.GetBytes(told ?? (uint)body.Length), .. body, .. new byte[body.Length & 1]];

    private static byte[] Format(ushort code, ushort channels, uint rate, ushort bits) => Chunk("fmt ",
    [
        .. BitConverter.GetBytes(code), .. BitConverter.GetBytes(channels), .. BitConverter.GetBytes(rate), .. BitConverter.GetBytes((uint)(rate * channels * bits / 8)),
        .. BitConverter.GetBytes((ushort)(channels * bits / 8)), .. BitConverter.GetBytes(bits),
    ]);
}
