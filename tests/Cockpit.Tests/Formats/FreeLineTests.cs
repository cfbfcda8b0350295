using System.Text;
using Cockpit.Core.Chance;
using Cockpit.Core.Formats.Signal;

namespace Cockpit.Tests.Formats;

/// <summary>Lines as receivers print them, in our own wording, and what is read from each; empty = nothing can be.</summary>
public sealed class FreeLineTests
{
    [Theory]
    [InlineData("12:00:05 SNR: 7.4 dB  Level: -61.2 dBFS  Lock: yes", "level=-61.2 snr=7.4 lock=1")]
    [InlineData("[2026-11-25 12:00:05] INFO snr 7.4 dB, level -61.2 dB", "level=-61.2 snr=7.4")]
    [InlineData("2026-11-25T12:00:05Z demod: SNR=7.4dB locked", "snr=7.4 lock=1")]
    [InlineData("Signal: -61.2 dBm", "level=-61.2")]
    [InlineData("signal level -61,2 dB", "level=-61.2")]
    [InlineData("Pegel level: -61,2 dB; SNR: 7,4 dB", "level=-61.2 snr=7.4")]
    [InlineData("S/N 7.4 dB", "snr=7.4")]
    [InlineData("s/n: 7.4", "snr=7.4")]
    [InlineData("Es/N0 = 7.4 dB", "snr=7.4")]
    [InlineData("Eb/N0: 6.1 dB BER: 1.2e-4", "snr=6.1 ber=0.00012")]
    [InlineData("EbN0=6.1 MER=9.2", "snr=6.1")]
    [InlineData("C/N0: 68.2 dB-Hz", "cn0=68.2")]
    [InlineData("C/N0 68.2dBHz offset +1.25 kHz", "cn0=68.2 df=1250")]
    [InlineData("cn0=68.2 dB-Hz", "cn0=68.2")]
    [InlineData("CNO 68.2", "cn0=68.2")]
    [InlineData("RSSI -60", "level=-60")]
    [InlineData("rssi=-60", "level=-60")]
    [InlineData("RSSI: -60 dBm, SNR: 7 dB", "level=-60 snr=7")]
    [InlineData("SNR=7", "snr=7")]
    [InlineData("SNR=7,LEVEL=-61.2,LOCK=1", "level=-61.2 snr=7 lock=1")]
    [InlineData("snr = 7", "snr=7")]
    [InlineData("snr= 7", "snr=7")]
    [InlineData("snr=7,4", "snr=7.4")]
    [InlineData("snr=1 more", "snr=1")]
    [InlineData("snr:7.4|lvl:-61|lock:true", "level=-61 snr=7.4 lock=1")]
    [InlineData("snr;7.4", "")]
    [InlineData("power=-61.2 dBFS clip=2%", "level=-61.2 clip=0.02")]
    [InlineData("pwr -61.2dBFS clipping: 0.5 %", "level=-61.2 clip=0.005")]
    [InlineData("Carrier lock: YES, frame sync: NO", "lock=1")]
    [InlineData("Deframer: SYNCED snr 9.1", "snr=9.1 lock=1")]
    [InlineData("Deframer: NOSYNC snr 2.1", "snr=2.1 lock=0")]
    [InlineData("demod LOCKED snr 7.4", "snr=7.4 lock=1")]
    [InlineData("demod not locked snr 1.4", "snr=1.4 lock=0")]
    [InlineData("status: searching", "lock=0")]
    [InlineData("State = Locked, frames 1204", "lock=1 frames=1204")]
    [InlineData("UNLOCKED", "lock=0")]
    [InlineData("LOCKED", "lock=1")]
    [InlineData("sync: lost", "lock=0")]
    [InlineData("synchronised: true, lines: 1204", "lock=1 frames=1204")]
    [InlineData("lock = off level = -80", "level=-80 lock=0")]
    [InlineData("Lock: on", "lock=1")]
    [InlineData("lock 1 snr 7", "snr=7 lock=1")]
    [InlineData("PLL: locked (freq offset: -1250 Hz)", "df=-1250 lock=1")]
    [InlineData("offset -1250 Hz", "df=-1250")]
    [InlineData("Offset: -1.25 kHz SNR 7 dB", "snr=7 df=-1250")]
    [InlineData("carrier_offset=-0.00125 MHz", "df=-1250")]
    [InlineData("AFC -1250", "df=-1250")]
    [InlineData("noise level: -90 dB", "")]
    [InlineData("noise: -90 dB level: -61 dB", "level=-61")]
    [InlineData("noise floor -98.2 dBFS, signal -61.2 dBFS", "level=-61.2")]
    [InlineData("Signal to noise ratio: 7.4 dB", "snr=7.4")]
    [InlineData("gain 38.6 dB", "")]
    [InlineData("tuner gain=38.6 level=-20", "level=-20")]
    [InlineData("level: 3.2 V", "")]
    [InlineData("level: 72 %", "")]
    [InlineData("signal 1701.3 MHz", "")]
    [InlineData("Frame 12 lock ok level -61", "level=-61 lock=1")]
    [InlineData("frames: 12/14 lost", "")]
    [InlineData("{\"signal\":{\"snr\":7.4,\"level\":-61.2},\"time\":\"12:00\"}", "level=-61.2 snr=7.4")]
    [InlineData("{\"rx\":[{\"demod\":{\"SNR\":\"7.4 dB\",\"locked\":\"yes\"}}]}", "snr=7.4 lock=1")]
    [InlineData("{\"noise\":{\"level\":-90},\"signal\":{\"level\":-61}}", "level=-61")]
    [InlineData("{\"data\":{\"C/N0\":68.2,\"state\":\"LOCKED\",\"frame_count\":120}}", "cn0=68.2 lock=1 frames=120")]
    [InlineData("{\"snr\":\"7.4\"}", "snr=7.4")]
    [InlineData("{\"msg\":\"hello\"}", "")]
    [InlineData("snr=7.4;lock=LOCKED;ber=1e-3", "snr=7.4 lock=1 ber=0.001")]
    [InlineData("<snr>7.4</snr>", "snr=7.4")]
    [InlineData("SNR (dB): 7.4", "snr=7.4")]
    [InlineData("Offset [kHz] = -1.25", "df=-1250")]
    [InlineData("* SNR ....... 7.4 dB", "snr=7.4")]
    [InlineData("SNR\t7.4\tlock\t1", "snr=7.4 lock=1")]
    [InlineData("<rx snr=\"7.4\" locked=\"true\"/>", "snr=7.4 lock=1")]
    [InlineData("version 1.2.3 ready", "")]
    [InlineData("listening on 127.0.0.1:7355", "")]
    [InlineData("12:00:05 hello", "")]
    [InlineData("1701300000", "")]
    [InlineData("{\"level\":1,\"snr\":[1]}", "level=1")]
    [InlineData("{\"t\":true,\"snr\":1}", "snr=1")]
    public void A_line_for_people_gives_what_it_says(string line, string expected) => Assert.Equal(expected, Pairs(SignalLine.Read(Encoding.UTF8.GetBytes(line), "signal")));

    [Fact]
    public void Random_bytes_never_become_a_level()
    {
        Xoshiro256 chance = new(seed: 20261126);
        var lines = new TrustedLines();
        List<byte> line = [];
        for (int n = 0; n < 4_000_000; n++)
        {
            byte next = (byte)chance.NextBits();
            if (next != (byte)'\n')
            {
                line.Add(next);
                continue;
            }

            Assert.Null(lines.Read(line.ToArray(), "signal").Sample);
            line.Clear();
        }
    }

    [Fact]
    public void Bare_numbers_count_from_the_fifth_good_line_in_a_row()
    {
        var lines = new TrustedLines();
        Assert.NotNull(lines.Read("level=7.4"u8, "signal").Sample);
        Assert.NotNull(lines.Read("7.4 dB"u8, "signal").Sample);
        Assert.True(lines.Read("7.4"u8, "signal").IsNothing);
        Assert.NotNull(lines.Read("hello"u8, "signal").Error);
        for (int k = 0; k < 4; k++)
        {
            Assert.True(lines.Read("7.4"u8, "signal").IsNothing);
            Assert.Null(lines.Told);
        }

        Assert.Equal(7.4, lines.Read("7.4"u8, "signal").Sample?.LevelDb);
        Assert.Equal("reads bare numbers as level", lines.Told);
        Assert.Equal(7.5, lines.Read("7.5"u8, "signal").Sample?.LevelDb);
        Assert.Null(lines.Told);
    }

    [Fact]
    public void After_bytes_that_are_no_text_five_good_lines_in_a_row_are_needed()
    {
        var lines = new TrustedLines();
        Assert.NotNull(lines.Read("snr=7.4"u8, "signal").Sample);
        Assert.Contains("looks like IQ samples: add ?format=", lines.Read([0x37, 0x00, 0xFF], "signal").Error?.Message, StringComparison.Ordinal);
        for (int k = 0; k < 4; k++)
        {
            Assert.True(lines.Read("snr=7.4"u8, "signal").IsNothing);
        }

        Assert.NotNull(lines.Read("hello"u8, "signal").Error);
        for (int k = 0; k < 4; k++)
        {
            Assert.True(lines.Read("snr=7.4"u8, "signal").IsNothing);
        }

        Assert.Equal(7.4, lines.Read("snr=7.4"u8, "signal").Sample?.SnrDb);
    }

    [Fact]
    public void A_feed_that_was_good_is_not_doubted_for_two_damaged_lines_but_for_three()
    {
        var lines = new TrustedLines();
        for (int k = 0; k < 5; k++)
        {
            Assert.NotNull(lines.Read("snr=7.4"u8, "signal").Sample);
        }

        lines.Read([0xFF], "signal");
        lines.Read([0xFE], "signal");
        Assert.NotNull(lines.Read("snr=7.5"u8, "signal").Sample);
        lines.Read([0xFF], "signal");
        lines.Read([0xFE], "signal");
        lines.Read([0x80], "signal");
        Assert.True(lines.Read("snr=7.6"u8, "signal").IsNothing);
    }

    [Fact]
    public void A_line_with_one_damaged_byte_is_told_as_that_and_not_as_samples() => Assert.Equal(
        new Core.Formats.ParseError("signal", 1, 6, "a byte that is not text (0xff); the line was damaged on the way, or is no text"),
        new TrustedLines().Read([.. "SNR: "u8, 0xFF, .. "7.4 dB, Level -61 dBFS"u8], "signal").Error);

    private static string Pairs(SignalLine line) => line.Sample is { } sample ? SignalLine.Format(sample) : "";
}
