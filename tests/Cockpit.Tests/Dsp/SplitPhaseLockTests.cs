using System.Numerics;
using Cockpit.Core.Dsp.SplitPhase;
using Cockpit.Core.Dsp.Synthesis;

namespace Cockpit.Tests.Dsp;

public sealed class SplitPhaseLockTests
{
    [Theory]
    [InlineData(false, 67, 3e6)]
    [InlineData(true, 67, 2.4e6)]
    [InlineData(false, 90, 3e6)]
    public void Every_frame_at_8_dB_is_found_where_it_begins(bool inverted, double swing, double rate)
    {
        MadeUp made = MadeUp.Of(new IqScenario
        {
            Seconds = 1.2, SampleRate = rate, SnrDb = [new(0, 8)], Inverted = inverted, SwingDegrees = swing, DopplerHz = [new(0, 29_000), new(1.2, 28_500)], ClockPpm = 20,
        });

        // The first is missed only if it ends before the loops have settled.
        Assert.True(made.Windows[3].Locked);
        TrueFrame[] expected = [.. made.Truth.Frames.Where(f => f.StartSample > 0.1 * rate)];
        Assert.True(made.Frames.Count >= expected.Length);
        Assert.All(made.Frames, f => Assert.True(f.Received));
        Assert.All(expected, t => Assert.Contains(made.Frames, f => Math.Abs(f.StartSample - t.StartSample) < 0.5));
    }

    [Fact]
    public void A_dropout_is_counted_line_by_line_and_the_lock_comes_back()
    {
        MadeUp made = MadeUp.Of(new IqScenario { Seconds = 3, Seed = 12, SnrDb = [new(0, 11)], Dropouts = [new(0.7, 1.9)], DopplerHz = [new(0, 1_000), new(3, 400)] });

        int away = made.Truth.Frames.Count(f => f.LeastSnrDb is null);
        Assert.Equal(away, made.Frames.Count(f => !f.Received));
        Assert.Equal(made.Frames.Count, made.Frames.Select(f => Math.Round(f.StartSample / 500_000.0 * 10)).Distinct().Count());
        Assert.False(made.Windows[18].Locked);
        Assert.True(made.Windows[23].Locked);
        Assert.Equal(made.Frames.Count(f => f.Received), (int)made.Windows[^1].LinesReceived);
        Assert.Equal(made.Frames.Count(f => !f.Received), (int)made.Windows[^1].LinesLost);
    }

    // At 12 dB one bit in half a million is wrong by the noise alone in a band of 3 MHz, which cuts an eighth of the power off
    // (Q(sqrt(2 Eb/N0)), J. Proakis, Digital Communications): one sample of ten thousand and more. A wider band leaves none here.
    [Theory]
    [InlineData(3e6, 16, 0)]
    [InlineData(6e6, 12, 0)]
    [InlineData(3e6, 12, 2)]
    public void The_picture_comes_back_bit_for_bit(double rate, double snr, int most)
    {
        MadeUp made = MadeUp.Of(new IqScenario { Seconds = 0.6, Seed = 4, Picture = true, SnrDb = [new(0, snr)], SampleRate = rate });

        Assert.True(made.FrameBits.Count >= 2);
        ushort[] row = new ushort[MinorFrame.EarthSamples];
        int wrong = 0;
        for (int k = 0; k < made.FrameBits.Count; k++)
        {
            long number = made.Truth.Frames.Single(t => Math.Abs(t.StartSample - made.Frames[k].StartSample) < 2).Number;
            for (int channel = 0; channel < MinorFrame.Channels; channel++)
            {
                MinorFrame.ReadChannel(made.FrameBits[k], channel, row);
                wrong += Enumerable.Range(0, row.Length).Sum(column => BitOperations.PopCount((uint)(row[column] ^ MadeUpView.At(channel, number, column))));
            }
        }

        Assert.InRange(wrong, 0, most);
    }

    // The published spelling: every bit is the exclusive or of four before it.
    [Fact]
    public void The_sync_word_obeys_its_recurrence()
    {
        int[] bits = [.. Enumerable.Range(0, MinorFrame.SyncBits).Select(k => (int)((MinorFrame.Sync >> (MinorFrame.SyncBits - 1 - k)) & 1))];

        Assert.Equal([1, 0, 1, 0, 0, 0], bits[..6]);
        Assert.All(Enumerable.Range(6, MinorFrame.SyncBits - 6), n => Assert.Equal(bits[n - 1] ^ bits[n - 4] ^ bits[n - 5] ^ bits[n - 6], bits[n]));
    }
}
