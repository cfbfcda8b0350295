using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Tests.Cues;

public sealed class AlarmTests
{
    [Fact]
    public void A_stopped_recording_warns_every_ten_seconds_until_the_key()
    {
        PassStage stage = new(100);
        stage.Desk(d => d with { JournalTrouble = "no space left on the disk" });
        stage.Run(25);
        Assert.Equal(
            """
             100.1 P1 Warning "recording stopped: no space left on the disk" 0+200@440 rich 333+200@440 rich 667+200@440 rich
             110.1 P1 Warning "recording stopped: no space left on the disk" 0+200@440 rich 333+200@440 rich 667+200@440 rich
             120.1 P1 Warning "recording stopped: no space left on the disk" 0+200@440 rich 333+200@440 rich 667+200@440 rich

            """.ReplaceLineEndings("\n"),
            stage.Score());
        stage.Press(OperatorKey.Acknowledge).Run(60);
        Assert.Equal(3, stage.Count(CueKind.Warning));
        Assert.Equal(CueKind.Taken, stage.Heard[^1].Cue.Kind);
    }

    [Fact]
    public void A_warning_ends_with_its_cause_and_comes_again_with_the_next()
    {
        PassStage stage = new(100);
        stage.Desk(d => d with { JournalTrouble = "no space left on the disk" });
        stage.Run(5);
        stage.Desk(d => d with { JournalTrouble = null });
        stage.Run(30);
        Assert.Equal(1, stage.Count(CueKind.Warning));
        stage.Desk(d => d with { JournalTrouble = "no space left on the disk" });
        stage.Run(5);
        Assert.Equal(2, stage.Count(CueKind.Warning));
    }

    [Fact]
    public void A_receiver_that_is_gone_is_a_warning_but_one_that_never_came_is_not()
    {
        PassStage gone = new(100);
        gone.Feed(FeedHealth.Absent);
        gone.Run(2);
        Assert.Equal("signal is gone", Assert.Single(gone.Heard).Cue.Text);
        Assert.Equal(CueKind.Warning, gone.Heard[0].Cue.Kind);

        PassStage never = new(-50);
        never.Snapshot = never.Snapshot with { Feeds = [never.Snapshot.Feeds[0] with { Health = FeedHealth.Waiting, Records = 0 }], Link = never.Snapshot.Link with { Last = null } };
        never.Run(49);
        Assert.Equal([CueKind.Phase], never.Kinds);
        never.Run(20);
        Assert.Equal(0, never.Count(CueKind.Warning));
        Assert.Equal("signal has not come", never.Heard[^1].Cue.Text);
    }

    // What a feed is for stands in the settings; its name is for people.
    [Theory]
    [InlineData("level", FeedRole.Signal, CueKind.Warning)]
    [InlineData("signal lamp", FeedRole.Other, CueKind.Caution)]
    public void The_loss_of_a_feed_weighs_what_its_role_says(string name, FeedRole role, CueKind kind)
    {
        PassStage stage = new(100);
        stage.Feed(FeedHealth.Absent);
        stage.Snapshot = stage.Snapshot with { Feeds = [stage.Snapshot.Feeds[0] with { Name = name, Role = role }] };
        stage.Run(2);
        Assert.Equal((kind, $"{name} is gone"), (stage.Heard[0].Cue.Kind, stage.Heard[0].Cue.Text));
    }

    [Theory]
    [InlineData("lock")]
    [InlineData("stale")]
    [InlineData("unreadable")]
    [InlineData("part")]
    public void A_fault_is_cautioned_three_times_at_most(string fault)
    {
        PassStage stage = new(100);
        stage.Run(1);
        Break(stage, fault);
        stage.Run(120);
        Assert.Equal(3, stage.Count(CueKind.Caution));
        Assert.Equal(3, stage.Heard.Count);
        double[] at = [.. stage.Heard.Select(h => h.At)];
        Assert.Equal(10.0, at[1] - at[0], 0.11);
        Assert.Equal(10.0, at[2] - at[1], 0.11);
    }

    [Fact]
    public void A_fluttering_lock_is_one_fault()
    {
        PassStage stage = new(100);
        stage.Run(1);
        stage.Run(120, s => s.Link(l => l with { LockLostFor = s.Now % 6.0 < 3.0 ? TimeSpan.FromSeconds(2.5) : null }));
        Assert.Equal(3, stage.Count(CueKind.Caution));
    }

    [Fact]
    public void An_acknowledged_caution_is_not_repeated()
    {
        PassStage stage = new(100);
        stage.Run(1);
        Break(stage, "lock");
        stage.Run(1).Press(OperatorKey.Acknowledge).Run(60);
        Assert.Equal(1, stage.Count(CueKind.Caution));
    }

    [Fact]
    public void A_missing_lock_is_no_news_while_the_operator_searches_but_a_feed_that_goes_is()
    {
        PassStage stage = new(100);
        stage.Run(1);
        stage.Aim(a => a with { Word = AimWord.Search });
        Break(stage, "lock");
        stage.Run(60);
        Assert.Equal(0, stage.Count(CueKind.Caution));
        Break(stage, "stale");
        stage.Run(60);
        Assert.Equal(3, stage.Count(CueKind.Caution));
    }

    [Theory]
    [InlineData(FeedHealth.Stale, CueKind.Caution)]
    [InlineData(FeedHealth.Absent, CueKind.Warning)]
    public void A_feed_whose_loss_was_heard_is_heard_when_it_is_back(FeedHealth health, CueKind loss)
    {
        PassStage stage = new(100);
        stage.Run(1);
        stage.Feed(health);
        stage.Run(5);
        Assert.Equal([loss], stage.Kinds);
        stage.Feed(FeedHealth.Good);
        stage.Run(0.9);
        Assert.Equal([loss], stage.Kinds);
        stage.Run(60);
        Assert.Equal([loss, CueKind.FeedBack], stage.Kinds);
        Assert.Equal([523.0, 784.0], stage.Heard[1].Cue.Tones.Select(t => t.FrequencyHz));
    }

    [Fact]
    public void A_feed_that_comes_for_the_first_time_is_not_back()
    {
        PassStage stage = new(-50);
        stage.Feed(FeedHealth.Waiting);
        stage.Run(10);
        stage.Feed(FeedHealth.Good);
        stage.Run(20);
        Assert.Empty(stage.Heard);
    }

    [Fact]
    public void Faults_outside_the_pass_do_not_sound_but_the_recording_does()
    {
        PassStage stage = new(-600);
        Break(stage, "lock");
        Break(stage, "stale");
        stage.Run(60);
        Assert.Empty(stage.Heard);
        stage.Desk(d => d with { JournalTrouble = "folder gone" });
        stage.Run(1);
        Assert.Equal(1, stage.Count(CueKind.Warning));
    }

    [Fact]
    public void A_lock_that_was_never_there_is_not_lost()
    {
        PassStage stage = new(5);
        stage.Link(l => l with { Last = PassStage.Measured(TimeSpan.Zero, locked: false), LockLostFor = TimeSpan.FromSeconds(30) });
        stage.Run(60);
        Assert.Empty(stage.Heard);
    }

    [Fact]
    public void A_warning_mutes_guidance_and_the_nudge_is_called_after_it()
    {
        PassStage stage = new(100);
        stage.Run(1);
        stage.Plan3(2, 105, 0.5, 0.0);
        stage.Run(20, s =>
        {
            if (s.Now >= 104.6) { s.Desk(d => d with { JournalTrouble = "no space left on the disk" }); }

            if (s.Now >= 105.0) { s.Aim(a => a with { Word = AimWord.Move }); }
        });
        double warned = stage.Heard.First(h => h.Cue.Kind == CueKind.Warning).At;
        double word = stage.Heard.First(h => h.Cue.Kind == CueKind.MoveWord).At;
        Assert.InRange(word - warned, 0.867 + 0.3, 0.867 + 0.3 + 0.15);
    }

    [Fact]
    public void Mute_leaves_the_alarms()
    {
        PassStage stage = new(100);
        stage.Run(1);
        stage.Desk(d => d with { Muted = true, JournalTrouble = "no space left on the disk" });
        stage.Run(1);
        Assert.Equal([CueKind.Warning], stage.Kinds);
    }

    private static void Break(PassStage stage, string fault)
    {
        switch (fault)
        {
            case "lock": stage.Link(l => l with { Last = PassStage.Measured(TimeSpan.Zero, locked: false), LockLostFor = TimeSpan.FromSeconds(2.1) }); break;
            case "stale": stage.Feed(FeedHealth.Stale); break;
            case "unreadable": stage.Feed(FeedHealth.Unreadable); break;
            default: stage.Happen(new PartFailed("sky plot", "index out of range")); break;
        }
    }
}
