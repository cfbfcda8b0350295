using System.Globalization;
using Cockpit.Session.Events;
using Cockpit.Session.State;
using Xunit.Abstractions;

namespace Cockpit.Tests.Cues;

public sealed class PeakSearchTests(ITestOutputHelper log)
{
    [Theory]
    [InlineData(10.0, 880.0)]
    [InlineData(9.0, 830.6)]
    [InlineData(4.0, 622.3)]
    [InlineData(-2.0, 440.0)]
    [InlineData(-20.0, 440.0)]
    [InlineData(14.0, 880.0)]
    public void A_decibel_is_a_semitone_below_the_expected_level(double measured, double hertz)
    {
        PassStage stage = Searching(100);
        stage.Link(l => l with { ExpectedDb = 10, MeasuredDb = measured });
        stage.Run(1);
        Assert.Equal(hertz, stage.Plan.Peak!.Value.FrequencyHz, 0.1);
    }

    [Fact]
    public void Without_a_mark_the_pitch_is_relative_to_what_the_search_has_seen()
    {
        PassStage stage = Searching(100);
        stage.Link(l => l with { ExpectedDb = null });
        Assert.Equal(440.0, Pitch(3), 1.0);
        Assert.Equal(440.0 * Math.Pow(2, 0.5), Pitch(9), 1.0);
        Assert.Equal(880.0, Pitch(18), 1.0);
        Assert.Equal(880.0 * Math.Pow(2, -0.25), Pitch(15), 1.0);

        double Pitch(double measured)
        {
            stage.Link(l => l with { MeasuredDb = measured });
            stage.Run(6);
            return stage.Plan.Peak!.Value.FrequencyHz;
        }
    }

    [Fact]
    public void Cadence_says_whether_it_gets_better_and_does_not_flutter()
    {
        PassStage stage = Searching(100);
        double[] trends = [0.5, 0.25, 0.1, 0.25, -0.5, -0.25, -0.1, 0.0];
        double[] heard = [.. trends.Select(trend =>
        {
            stage.Link(l => l with { TrendDbPerSec = trend });
            stage.Run(0.1);
            return stage.Plan.Peak!.Value.PulsesPerSecond;
        })];
        Assert.Equal([4.0, 4.0, 2.0, 2.0, 0.0, 0.0, 2.0, 2.0], heard);
    }

    [Fact]
    public void Passing_the_best_ticks_twice_once_for_each_pass()
    {
        PassStage stage = Searching(100);
        stage.Run(20, s => s.Link(l => l with { MeasuredDb = 8.0 - (3.0 * Math.Cos(Math.Tau * (s.Now - 100.0) / 10.0)) }));
        Assert.Equal(2, stage.Count(CueKind.PeakPassed));
        Assert.Equal([990.0, 990.0], stage.Heard[0].Cue.Tones.Select(t => t.FrequencyHz));
    }

    [Fact]
    public void A_level_that_only_falls_has_no_best_to_pass()
    {
        PassStage stage = Searching(100);
        stage.Run(20, s => s.Link(l => l with { MeasuredDb = 10.0 - (0.3 * (s.Now - 100.0)) }));
        Assert.Empty(stage.Heard);
    }

    [Fact]
    public void A_wobble_of_half_a_decibel_passes_nothing()
    {
        PassStage stage = Searching(100);
        stage.Run(25, s => s.Link(l => l with { MeasuredDb = 8.0 + (0.3 * Math.Sin(7.0 * s.Now)) }));
        Assert.Empty(stage.Heard);
    }

    [Theory]
    [InlineData(1.0, 10)]
    [InlineData(1.0, 2)]
    [InlineData(2.0, 10)]
    public void Noise_alone_hardly_changes_the_cadence_and_passes_no_best(double sigmaDb, int ratePerSecond)
    {
        int ticks = 0;
        int unsteady = 0;
        int steps = 0;
        for (ulong seed = 1; seed <= 20; seed++)
        {
            NoisySearch search = new(seed, sigmaDb, ratePerSecond);
            search.Run(28.0, _ => 0.0);
            ticks += search.Stage.Count(CueKind.PeakPassed);
            unsteady += search.Stage.Peaks.Count(p => p.At > 105.0 && p.Tone is { PulsesPerSecond: not 2.0 });
            steps += search.Stage.Peaks.Count(p => p.At > 105.0 && p.Tone is not null);
        }

        log.WriteLine(string.Create(CultureInfo.InvariantCulture, $"sigma {sigmaDb} dB, {ratePerSecond}/s: {ticks} false ticks in 20 searches, cadence not steady {100.0 * unsteady / steps:0} %"));
        Assert.InRange(ticks, 0, 4);
        Assert.InRange((double)unsteady / steps, 0.0, 0.1);
    }

    [Fact]
    public void A_sweep_over_the_beam_in_noise_is_heard_rising_passed_and_falling()
    {
        int ticked = 0;
        int rising = 0;
        int falling = 0;
        for (ulong seed = 1; seed <= 20; seed++)
        {
            NoisySearch search = new(seed, 1.0, 10);
            search.Run(3.0, _ => -6.75);
            search.Run(10.0, t => -12.0 * Math.Pow((t - 5.0) * 0.15, 2));   // 0.15 beamwidths a second
            ticked += Math.Min(1, search.Stage.Count(CueKind.PeakPassed));
            rising += search.Stage.Peaks.Any(p => p.At is > 104.5 and < 107.0 && p.Tone is { PulsesPerSecond: 4.0 }) ? 1 : 0;
            falling += search.Stage.Peaks.Any(p => p.At is > 109.5 and < 113.0 && p.Tone is { PulsesPerSecond: 0.0 }) ? 1 : 0;
        }

        log.WriteLine($"of 20 sweeps: {rising} heard rising, {ticked} passed, {falling} falling");
        Assert.InRange(ticked, 18, 20);
        Assert.InRange(rising, 19, 20);
        Assert.InRange(falling, 19, 20);
    }

    [Fact]
    public void The_tone_ends_at_a_mark_that_was_taken()
    {
        PassStage stage = Searching(100);
        stage.Run(5);
        Assert.NotNull(stage.Plan.Peak);
        stage.Aim(a => a with { PeakAsked = false });
        stage.Press(OperatorKey.Peaked).Run(40);
        Assert.All(stage.Peaks.Where(p => p.At > 105.05), p => Assert.Null(p.Tone));
    }

    [Fact]
    public void After_a_mark_that_was_refused_the_search_goes_on()
    {
        PassStage stage = new(100);
        stage.Aim(a => a with { Word = AimWord.Search });
        stage.Run(5).Press(OperatorKey.Peaked);
        Assert.Null(stage.Plan.Peak);
        stage.Run(1.5);
        Assert.Null(stage.Plan.Peak);
        stage.Run(1);
        Assert.NotNull(stage.Plan.Peak);
    }

    [Fact]
    public void A_nudge_interrupts_the_tone_and_does_not_wind_it_up_again()
    {
        PassStage stage = new(100);
        stage.Run(120, s => s.Aim(a => a with { Word = s.Now % 12.0 < 3.0 ? AimWord.Move : AimWord.Search, Reason = AimReason.Search }));
        double[] sounding = [.. stage.Peaks.Where(p => p.Tone is not null).Select(p => p.At)];
        Assert.InRange(sounding.Length / 10.0, 20.0, 25.0);
        Assert.DoesNotContain(sounding, at => at - sounding[0] is > 30.2);
    }

    [Fact]
    public void The_tone_never_sounds_while_a_nudge_is_counted_down()
    {
        PassStage stage = Searching(100);
        stage.Plan3(2, 110, 0.5, 0.0);
        stage.Run(10);
        Assert.Equal(3, stage.Count(CueKind.ClockTick));
        Assert.All(stage.Peaks.Where(p => p.At > 106.55), p => Assert.Null(p.Tone));
        Assert.All(stage.Peaks.Where(p => p.At < 106.45), p => Assert.NotNull(p.Tone));
    }

    [Fact]
    public void The_tone_ends_after_thirty_seconds_and_comes_again_with_the_key()
    {
        PassStage stage = Searching(100);
        stage.Run(60);
        Assert.InRange(stage.Peaks.Count(p => p.Tone is not null), 299, 302);
        stage.Press(OperatorKey.Search);
        Assert.NotNull(stage.Plan.Peak);
    }

    [Theory]
    [InlineData(AimWord.Search, true)]
    [InlineData(AimWord.Hold, false)]
    [InlineData(AimWord.Move, false)]
    public void It_sounds_by_itself_only_when_the_dish_has_to_be_found(AimWord word, bool sounds)
    {
        PassStage stage = new(100);
        stage.Aim(a => a with { Word = word });
        stage.Run(1);
        stage.Run(1.5);
        Assert.Equal(sounds, stage.Plan.Peak is not null);
    }

    [Fact]
    public void It_is_silent_without_a_fresh_level_and_when_muted()
    {
        PassStage stage = Searching(100);
        stage.Run(1);
        stage.Link(l => l with { Last = PassStage.Measured(TimeSpan.FromSeconds(5)) });
        stage.Run(1);
        Assert.Null(stage.Plan.Peak);
        stage.Link(l => l with { Last = PassStage.Measured(TimeSpan.Zero) });
        stage.Desk(d => d with { Muted = true });
        stage.Run(1);
        Assert.Null(stage.Plan.Peak);
    }

    private static PassStage Searching(double start)
    {
        PassStage stage = new(start);
        stage.Aim(a => a with { PeakAsked = true });
        return stage;
    }
}
