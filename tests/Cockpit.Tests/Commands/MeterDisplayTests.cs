using System.Collections.Immutable;
using Cockpit.Commands;
using Cockpit.Core.Dsp;
using Cockpit.Core.Dsp.Synthesis;
using Microsoft.Extensions.Time.Testing;

namespace Cockpit.Tests.Commands;

public sealed class MeterDisplayTests
{
    private static readonly DateTimeOffset Start = new(2026, 11, 25, 12, 0, 0, TimeSpan.Zero);

    [Theory]
    [InlineData(80, 24)]
    [InlineData(120, 39)]
    [InlineData(40, 16)]
    public void The_scene_fills_its_lines_and_no_more(int width, int height)
    {
        ImmutableArray<string> lines = Scene(11.2, SignalKind.SplitPhase).Compose(width, height, DrawingSigns.Unicode);
        Assert.Equal(height, lines.Length);
        Assert.All(lines, line => Assert.True(line.Length < width, line));
    }

    [Fact]
    public void The_spectrum_stands_where_the_power_is_and_the_arrow_at_the_carrier()
    {
        ImmutableArray<string> lines = Scene(11.2, SignalKind.SplitPhase).Compose(80, 24, DrawingSigns.Unicode);
        string axis = lines.Single(line => line.Contains('▲', StringComparison.Ordinal));
        Assert.Equal(0.5 + (100e3 / 1e6), (axis.IndexOf('▲', StringComparison.Ordinal) - 7) / 71.0, 0.03);
        string top = lines.Skip(6).First(line => line.Contains('█', StringComparison.Ordinal));
        Assert.Equal(0.75, (top.IndexOf('█', StringComparison.Ordinal) - 7) / 71.0, 0.03);
    }

    [Fact]
    public void Numbers_lock_and_frames_stand_in_words_and_a_table_below()
    {
        string page = string.Join('\n', Scene(11.2, SignalKind.SplitPhase).Compose(120, 30, DrawingSigns.Unicode));
        Assert.Contains("SNR     11.2 dB", page, StringComparison.Ordinal);
        Assert.Contains("split-phase 99 %  ● locked  frames 123  lost 4  offset +100.000 kHz", page, StringComparison.Ordinal);
        Assert.Contains("00:42 of 02:00   35 %", page, StringComparison.Ordinal);
        Assert.Contains("! overload", page, StringComparison.Ordinal);
        Assert.Contains("12:00:41", page, StringComparison.Ordinal);
    }

    [Fact]
    public void Without_unicode_every_character_is_plain()
    {
        string page = string.Join('\n', Scene(null, SignalKind.None).Compose(80, 24, DrawingSigns.Ascii));
        Assert.All(page, c => Assert.True(char.IsAscii(c), $"{(int)c:x}"));
        Assert.Contains("--.- dB", page, StringComparison.Ordinal);
        Assert.Contains("no signal  o no lock", page, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0.0, "····")]
    [InlineData(0.5, "██··")]
    [InlineData(0.53125, "██▏·")]
    [InlineData(2.0, "████")]
    public void A_bar_counts_in_eighths_of_a_cell(double share, string bar) => Assert.Equal(bar, DrawingSigns.Unicode.Bar(share, 4));

    [Fact]
    public void The_display_draws_over_itself_ten_times_a_second_and_gives_the_cursor_back()
    {
        FakeTimeProvider time = new();
        using StringWriter terminal = new();
        IqScenario scenario = new() { SampleRate = 1_000_000, Seconds = 0.5, SnrDb = [new(0, 12)], Kind = SignalKind.Carrier, DopplerHz = [new(0, 30_000)] };
        SignalMeter meter = new(scenario.SampleRate, SampleFormat.Ci16Le, []);
        MeterDisplay display = new(terminal, () => (80, 24), DrawingSigns.Ascii, "file:\u001b[2Jevil", "1 Msps", Start, 0.5, null, time) { Meter = meter };
        display.Begin();
        IqGenerator generator = new(scenario);
        float[] i = new float[50_000], q = new float[50_000];
        byte[] bytes = new byte[200_000];
        while (generator.Next(i, q) is > 0 and int count)
        {
            SampleWriter.Write(SampleFormat.Ci16Le, i.AsSpan(0, count), q.AsSpan(0, count), bytes);
            meter.Take(bytes.AsSpan(0, count * 4), display);
            time.Advance(TimeSpan.FromSeconds(0.04));
        }

        meter.Finish(display);
        display.Finish(meter);
        string drawn = terminal.ToString();
        Assert.StartsWith("\u001b[?25l", drawn, StringComparison.Ordinal);
        Assert.EndsWith("\u001b[?25h", drawn, StringComparison.Ordinal);
        Assert.DoesNotContain("\u001b[2J", drawn, StringComparison.Ordinal);
        Assert.Equal(500_000, display.Samples);

        // First window at once, then those at 0.2 and 0.4 s of the wall, and the end.
        Assert.Equal(3, drawn.Split("\u001b[23F").Length - 1);
        Assert.Contains("carrier", drawn, StringComparison.Ordinal);
    }

    private static MeterScene Scene(double? snr, SignalKind kind)
    {
        float[] power = [.. Enumerable.Range(0, 1000).Select(k => k is > 740 and < 760 ? 0.1f : 0.001f)];
        MeterReading reading = new(
            41_900_000, 100_000, -20, -30, snr, 69.4, kind == SignalKind.None ? null : 100e3, 0.02, null, kind, 0.99, 665.4e3, kind != SignalKind.None, 123, 4, kind == SignalKind.None ? MeterWarnings.None : MeterWarnings.Overload);
        string row = MeterRows.LineOf(Start.AddSeconds(41), reading);
        return new MeterScene("file:pass.wav", "1.000 Msps ci16", Start.AddSeconds(41.9), reading, 14, 42, 120, [.. power], 1e6, [row]);
    }
}
