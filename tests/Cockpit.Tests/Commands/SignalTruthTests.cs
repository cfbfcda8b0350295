using Cockpit.Checks.Signal;
using Cockpit.Core.Dsp;

namespace Cockpit.Tests.Commands;

public sealed class SignalTruthTests
{
    [Theory]
    [InlineData("split-phase, plain", 5)]
    [InlineData("split-phase, interferer", 0)]
    [InlineData("split-phase, picture", 20)]
    [InlineData("qpsk, clock 20 ppm", 0)]
    [InlineData("qpsk, interferer", 10)]
    public void The_snr_of_a_made_signal_is_read_within_its_aim(string name, double snr)
    {
        TruthLine line = TruthCase.Usual(0.3).Single(c => c.Name == name && c.Scenario.SnrDb[0].Value == snr).Measure();
        Assert.True(line.IsAimed && line.Ok, $"{line}");
        Assert.Equal(3, line.Windows);
        Assert.InRange(Math.Abs(line.BiasDb!.Value), 1e-9, 0.3);
    }

    [Theory]
    [InlineData(5.0, 0.29, 0.29, 1.0, true)]
    [InlineData(0.0, -0.31, 0.01, 1.0, false)]
    [InlineData(0.0, 0.01, 0.31, 1.0, false)]
    [InlineData(0.0, 0.01, 0.01, 0.9, false)]
    [InlineData(-0.1, 2.0, 2.0, 0.0, true)]
    public void Outside_the_aim_a_line_fails_from_0_dB_up(double snr, double bias, double sd, double kind, bool ok) =>
        Assert.Equal(ok, new TruthLine("made", snr, 10, bias, sd, null, kind, null, null, null, null).Ok);

    [Fact]
    public void A_line_without_any_reading_fails() => Assert.False(new TruthLine("made", 5, 10, null, null, null, 1, null, null, null, null).Ok);

    [Fact]
    public void Theory_of_the_sync_word_goes_by_the_error_function()
    {
        // Q(sqrt(2 x 0.847 x 10)) at 10 dB: Q(4.116) = 1.93e-5 (table of the normal distribution).
        Assert.Equal(1.93e-5, SyncTheory.BitErrors(10), 0.01e-5);
        Assert.Equal(1.0, SyncTheory.Found(10), 1e-12);
        Assert.InRange(SyncTheory.Found(-20), 0, 1e-3);
    }

    [Fact]
    public void The_locks_hold_and_hear_nothing_in_noise()
    {
        LockTruth truth = new(2, 0.8, 1);
        LockFigure split = truth.SplitPhase(8);
        Assert.True(split is { Ok: true, Found: 1, Received: 1, Locked: 1, False: 0 }, $"{split}");
        LockFigure qpsk = truth.Qpsk(0);
        Assert.True(qpsk is { Ok: true, Locked: 1 }, $"{qpsk}");
        LockFigure weak = truth.Qpsk(-10);
        Assert.True(weak is { Ok: null, Locked: < 0.5 }, $"{weak}");
        foreach (SignalKind kind in new[] { SignalKind.SplitPhase, SignalKind.Qpsk })
        {
            Assert.InRange(truth.First(kind).Seconds!.Value, 0.05, 1.0);
            Assert.True(truth.Noise(kind).Ok);
        }

        Assert.InRange(truth.Again(SignalKind.SplitPhase).Seconds!.Value, 0.05, 1.0);
    }
}
