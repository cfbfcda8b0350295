using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Tests.Cues;

public sealed class AdvisoryTests
{
    [Fact]
    public void Rise_lock_and_end_are_announced_once_each()
    {
        PassStage stage = new(-90);
        stage.Link(l => l with { Last = null });
        stage.Aim(a => a with { Word = AimWord.Point });
        stage.Run(110);
        stage.Link(l => l with { Last = PassStage.Measured(TimeSpan.Zero) });
        stage.Aim(a => a with { Word = AimWord.Hold });
        stage.Run(600);
        Assert.Equal(
            """
             -60.0 P4 Phase "rise in 60 s" 0+80@523 80+80@659
             -10.0 P4 Phase "rise in 10 s" 0+80@523 80+80@659 240+80@523 320+80@659
              20.1 P4 LockGained "lock gained" 0+80@523 80+80@659 160+80@784
             540.0 P4 Phase "end in 60 s" 0+80@784 80+80@659 160+80@523

            """.ReplaceLineEndings("\n"),
            stage.Score());
    }

    [Fact]
    public void A_start_in_the_middle_of_a_pass_is_silent()
    {
        PassStage stage = new(200);
        stage.Run(30);
        Assert.Empty(stage.Heard);
    }

    [Fact]
    public void A_lock_that_comes_and_goes_within_five_seconds_says_nothing()
    {
        PassStage stage = new(100);
        stage.Run(60, s => s.Link(l => l with { Last = PassStage.Measured(TimeSpan.Zero, s.Now % 4.0 < 2.0) }));
        Assert.Empty(stage.Heard);
    }

    [Fact]
    public void A_clock_that_is_set_back_says_nothing_twice()
    {
        PassStage stage = new(-70);
        stage.Run(15).Turn(-20).Run(30);
        Assert.Equal(1, stage.Count(CueKind.Phase));
    }

    [Fact]
    public void The_heartbeat_beats_every_five_seconds_while_all_is_well_and_only_then()
    {
        PassStage stage = new(100);
        stage.Snapshot = stage.Snapshot with { Settings = PassStage.Settings() with { Heartbeat = true } };
        stage.Run(21);
        Assert.Equal(4, stage.Count(CueKind.Heartbeat));
        Assert.All(stage.Heard, h => Assert.Equal(-6.0, Assert.Single(h.Cue.Tones).LevelDb));
        stage.Link(l => l with { MeasuredDb = 4 });
        stage.Run(20);
        stage.Link(l => l with { MeasuredDb = 10, Last = PassStage.Measured(TimeSpan.FromSeconds(5)) });
        stage.Run(20);
        Assert.Equal(4, stage.Count(CueKind.Heartbeat));
    }

    [Fact]
    public void The_big_turn_overhead_is_heard_two_minutes_before_it_once()
    {
        PassStage stage = new(150);
        stage.Aim(a => a with { Overhead = new BigTurn(PassStage.Aos.AddSeconds(300), Core.Aim.OverheadWay.Turn, Core.Units.Angle.FromDegrees(126), Core.Units.Angle.Zero, 3.0, 8.0, null) });
        stage.Run(140);
        (double at, Cue cue) = Assert.Single(stage.Heard);
        Assert.Equal(("big turn of the pan in two minutes", 180.0), (cue.Text, Math.Round(at)));
    }

    [Fact]
    public void The_test_sound_and_the_word_again_come_on_their_keys_even_when_muted()
    {
        PassStage stage = new(100);
        stage.Plan3(2, 100, -0.4, 0.0);
        stage.Aim(a => a with { Word = AimWord.Move });
        stage.Desk(d => d with { Muted = true });
        stage.Run(1).Press(OperatorKey.TestSound).Run(3).Press(OperatorKey.Again).Run(3);
        stage.Aim(a => a with { Word = AimWord.Hold });
        stage.Press(OperatorKey.Again);
        Assert.Equal([CueKind.Test, CueKind.MoveWord, CueKind.OnTarget], stage.Kinds);
    }

    [Fact]
    public void The_volume_is_kept_within_its_limits()
    {
        PassStage stage = new(100);
        stage.Desk(d => d with { VolumeDb = 60 });
        stage.Run(0.1);
        Assert.Equal(Core.Sound.Level.LoudestDb, stage.Plan.VolumeDb);
        Assert.Null(stage.Plan.Peak);
    }
}
