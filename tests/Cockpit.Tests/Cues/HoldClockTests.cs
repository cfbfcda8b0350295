using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Tests.Cues;

public sealed class HoldClockTests
{
    [Fact]
    public void A_nudge_is_ticked_in_said_and_said_once_more_when_no_key_comes()
    {
        PassStage stage = new(100);
        stage.Plan3(2, 110, 0.45, 0.15);
        stage.Run(30, MoveWhenDue);
        Assert.Equal(
            """
             107.0 P3 ClockTick "nudge in 3 s" 0+30@660
             108.0 P3 ClockTick "nudge in 2 s" 0+30@660
             109.0 P3 ClockTick "nudge in 1 s" 0+30@660
             110.0 P3 MoveWord "right 7" 0+150@660 190+60@660 290+60@660
             114.0 P3 MoveWord "right 7" 0+150@660 190+60@660 290+60@660 600+150@660 790+60@660 890+60@660

            """.ReplaceLineEndings("\n"),
            stage.Score());
    }

    [Fact]
    public void The_key_moved_ends_the_calling_of_this_nudge()
    {
        PassStage stage = new(100);
        stage.Plan3(2, 110, -0.35, -0.4);
        stage.Run(12, MoveWhenDue);
        stage.Press(OperatorKey.Moved).Run(20, MoveWhenDue);
        Assert.Equal("left 5, down 6", Assert.Single(stage.Heard, h => h.Cue.Kind == CueKind.MoveWord).Cue.Text);
    }

    [Fact]
    public void Nothing_guides_for_two_seconds_after_a_nudge_without_a_sensor()
    {
        PassStage stage = new(100);
        stage.Plan3(2, 104, 0.5, 0.0);
        stage.Run(5, MoveWhenDue);
        stage.Plan3(3, 107.5, 0.5, 0.0);
        stage.Press(OperatorKey.Moved);
        double moved = stage.Now;
        stage.Run(4, MoveWhenDue);
        Assert.DoesNotContain(stage.Heard, h => h.At > moved && h.At < moved + 2.0);
        Assert.Equal(2, stage.Count(CueKind.MoveWord));
    }

    [Fact]
    public void A_call_is_spoken_however_badly_the_direction_is_known()
    {
        PassStage stage = new(100);
        stage.Plan3(2, 105, 0.5, 0.5);
        stage.Aim(a => a with { Dish = a.Dish! with { Spread = PassStage.Beam * 0.5 } });
        stage.Run(20, MoveWhenDue);
        Assert.Contains(stage.Heard, h => h.Cue.Kind == CueKind.MoveWord);
    }

    [Fact]
    public void A_move_below_a_tenth_of_the_beam_is_not_spoken()
    {
        PassStage stage = new(100);
        stage.Plan3(2, 105, 0.06, 0.06);
        stage.Run(20, MoveWhenDue);
        Assert.Empty(stage.Heard);
    }

    [Fact]
    public void Mute_silences_the_hold_clock()
    {
        PassStage stage = new(100);
        stage.Plan3(2, 105, 0.5, 0.5);
        stage.Desk(d => d with { Muted = true });
        stage.Run(20, MoveWhenDue);
        Assert.Empty(stage.Heard);
    }

    // Four times as fast the hands' two seconds are eight of the session: a nudge that comes and goes within them finds no room.
    [Fact]
    public void A_fast_session_leaves_words_out_whole_and_counts_them()
    {
        PassStage stage = new(100);
        stage.Snapshot = stage.Snapshot with { Settings = PassStage.Settings() with { Speed = 4.0 } };
        for (int hold = 2; hold < 12; hold++)
        {
            double call = stage.Now + 1.0;
            stage.Plan3(hold, call, 0.5, 0.0);
            stage.Run(5, MoveWhenDue);
        }

        int said = stage.Count(CueKind.MoveWord);
        Assert.InRange(said, 3, 8);
        Assert.InRange(stage.Plan.WordsLeftOut, 10 - said - 1, 10 - said);
        Assert.All(stage.Heard, h => Assert.Equal(h.Cue.Meaning is { Pressing: true } ? 6 : 3, h.Cue.Tones.Length));
    }

    private static void MoveWhenDue(PassStage stage)
    {
        if (stage.Snapshot.Aim.NudgeAt <= stage.Snapshot.Utc) { stage.Aim(a => a with { Word = AimWord.Move }); }
    }
}
