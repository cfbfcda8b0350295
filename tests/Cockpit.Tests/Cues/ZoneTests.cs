using Cockpit.Core.Aim;
using Cockpit.Core.Units;
using Cockpit.Session.Cues;
using Cockpit.Session.State;

namespace Cockpit.Tests.Cues;

public sealed class ZoneTests
{
    [Fact]
    public void On_target_is_silent_and_a_short_excursion_too()
    {
        PassStage stage = Sensor(0.05, 0.0);
        stage.Run(5);
        Error(stage, 0.3, 0.0);
        stage.Run(0.8);
        Error(stage, 0.05, 0.0);
        stage.Run(5);
        Assert.Empty(stage.Heard);
    }

    [Fact]
    public void Off_target_words_come_at_the_rate_of_the_error_and_entry_ticks_once()
    {
        PassStage stage = Sensor(0.05, 0.0);
        stage.Run(3);
        Error(stage, 0.0, 0.6);
        stage.Run(12);
        double[] words = [.. stage.Heard.Where(h => h.Cue.Kind == CueKind.MoveWord).Select(h => h.At)];
        Assert.InRange(words[0], 104.0, 104.5);
        Assert.Equal(1.0 / MoveWord.RatePerSecond(0.6), (words[^1] - words[0]) / (words.Length - 1), 0.06);
        Assert.All(stage.Heard, h => Assert.Equal("up 9", h.Cue.Text));
        Error(stage, 0.0, 0.1);
        stage.Run(10);
        Assert.Equal(1, stage.Count(CueKind.OnTarget));
        Assert.Equal(CueKind.OnTarget, stage.Kinds.Last());
    }

    [Fact]
    public void The_dish_that_closes_in_hears_nothing()
    {
        PassStage stage = Sensor(0.05, 0.0);
        stage.Run(2);
        Error(stage, 0.9, 0.0);
        stage.Run(3);
        int before = stage.Heard.Count;
        double from = stage.Now;
        stage.Run(2.8, s => Error(s, 0.9 - (0.3 * (s.Now - from)), 0.0));
        Assert.InRange(stage.Heard.Count(h => h.At > from + 0.5 && h.Cue.Kind == CueKind.MoveWord), 0, 0);
        Assert.True(before > 0);
    }

    [Fact]
    public void Between_the_limits_nothing_flickers()
    {
        PassStage stage = Sensor(0.05, 0.0);
        stage.Run(2);
        stage.Run(40, s => Error(s, 0.185 + (0.03 * Math.Sin(3.0 * s.Now)), 0.0));
        Assert.Empty(stage.Heard);
    }

    [Fact]
    public void Words_that_lead_nowhere_give_way_to_the_peak_tone()
    {
        PassStage stage = Sensor(0.05, 0.0);
        stage.Run(2);
        Error(stage, 0.7, 0.0);
        stage.Run(40);
        double last = stage.Heard.Last(h => h.Cue.Kind == CueKind.MoveWord).At;
        double tone = stage.Peaks.First(p => p.Tone is not null).At;
        Assert.InRange(last, 121.0, 125.0);
        Assert.InRange(tone - last, 4.5, 6.5);
    }

    [Fact]
    public void A_sensor_with_an_unknown_offset_says_nothing()
    {
        PassStage stage = Sensor(0.6, 0.3);
        stage.Aim(a => a with { Dish = a.Dish! with { Spread = PassStage.Beam * 0.25 } });
        stage.Run(20);
        Assert.Empty(stage.Heard);
    }

    [Fact]
    public void A_called_nudge_is_said_at_its_time_and_then_led_by_the_sensor_across_north_and_overhead()
    {
        PassStage stage = Sensor(0.0, 0.0);
        stage.Aim(a => a with
        {
            Mount = Mount.PanTilt,
            Dish = a.Dish! with { Azimuth = Angle.FromDegrees(359), Elevation = Angle.FromDegrees(80) },
            Current = a.Current! with { Azimuth = Angle.FromDegrees(359), Elevation = Angle.FromDegrees(80) },
            Target = PassStage.HoldNumber(2, 110, 170) with { Azimuth = Angle.FromDegrees(39), Elevation = Angle.FromDegrees(80) },
            NudgeAt = PassStage.Aos.AddSeconds(110),
        });
        stage.Run(14, s => s.Aim(a => a with
        {
            Nudge = AimErrors.Between(a.Dish!.Azimuth, a.Dish.Elevation, a.Target!.Azimuth, a.Target.Elevation),
            Word = s.Now >= 110 ? AimWord.Move : AimWord.Hold,
        }));
        Assert.Equal(3, stage.Count(CueKind.ClockTick));
        Assert.True(stage.Count(CueKind.MoveWord) > 3);
        Assert.All(stage.Heard.Where(h => h.Cue.Kind == CueKind.MoveWord), h => Assert.StartsWith("right 40", h.Cue.Text, StringComparison.Ordinal));
    }

    private static PassStage Sensor(double rightB, double upB)
    {
        PassStage stage = new(100);
        stage.Aim(a => a with { Dish = new Pointing(default, default, PassStage.Beam * 0.05, PointingOrigin.Sensor) });
        Error(stage, rightB, upB);
        return stage;
    }

    /// <summary>Puts the dish so far from the hold that it is meant to be in.</summary>
    private static void Error(PassStage stage, double rightB, double upB) => stage.Aim(a =>
    {
        (Angle azimuth, Angle elevation) = AimErrors.Moved(a.Current!.Azimuth, a.Current.Elevation, PassStage.Beam * -rightB, PassStage.Beam * -upB);
        return a with { Dish = a.Dish! with { Azimuth = azimuth, Elevation = elevation } };
    });
}
