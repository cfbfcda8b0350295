using Cockpit.Core.Formats.Elements;
using Cockpit.Core.Geo;
using Cockpit.Core.Signal;
using Cockpit.Core.Units;
using Cockpit.Session.Events;
using Cockpit.Session.Pipeline;
using Cockpit.Session.State;

namespace Cockpit.Tests.Session;

/// <summary>The fold over hand-written events; the satellite and the station are the invented ones of the reference tables.</summary>
public sealed class FoldTests
{
    private static readonly DateTimeOffset Start = new(2026, 11, 26, 10, 0, 0, TimeSpan.Zero);

    private static readonly SessionSettings Settings = new()
    {
        ProgramVersion = "test",
        Kind = SessionKind.Live,
        StationName = "LOWLAND",
        Station = new Site(Angle.FromDegrees(47.8), Angle.FromDegrees(11.2), 520),
        SatelliteName = "BRACKWING 5",
        Elements = ElementSets.Read("test", new StringReader("""
            BRACKWING 5
            1 99129U 26014A   26329.02321816  .00000043  00000-0  10514-3 0  7313
            2 99129  98.8186 153.7539 0005269 308.7134  69.4194 14.12592518451565
            """)).Sets[0],
        Feeds = [FeedSettings.Signal],
    };

    [Fact]
    public void The_phase_follows_rise_culmination_and_set()
    {
        Fold fold = new();
        SkyNow opened = Step(fold, 0, new SessionOpened(Settings)).Sky!;
        Assert.Equal(PassPhase.Waiting, opened.Phase);

        PassPhase At(DateTimeOffset utc) => Step(fold, (utc - Start).TotalSeconds, new Ticked()).Sky!.Phase;
        Assert.Equal(PassPhase.Ready, At(opened.Pass.Aos.Utc.AddSeconds(-30)));
        Assert.Equal(PassPhase.Climbing, At(opened.Pass.Aos.Utc.AddSeconds(1)));
        Assert.Equal(PassPhase.Sinking, At(opened.Pass.Tca.Utc.AddSeconds(1)));
        Assert.Equal(PassPhase.Over, At(opened.Pass.Los.Utc.AddSeconds(1)));
    }

    [Fact]
    public void A_silent_feed_is_named_with_the_time_of_its_last_record()
    {
        Fold fold = new();
        _ = Step(fold, 0, new SessionOpened(Settings));
        _ = Step(fold, 1, new SignalMeasured("signal", new SignalSample { SnrDb = 7 }));
        Snapshot fresh = Step(fold, 2, new Ticked());
        Snapshot stale = Step(fold, 4.1, new Ticked());
        Snapshot absent = Step(fold, 12, new FeedLost("signal", "the other side closed the connection"));

        Assert.Equal(FeedHealth.Good, fresh.Feeds[0].Health);
        Assert.Equal(FeedHealth.Stale, stale.Feeds[0].Health);
        Assert.Equal(Start.AddSeconds(1), stale.Feeds[0].SilentSince);
        Assert.Equal(FeedHealth.Absent, absent.Feeds[0].Health);
        Assert.Equal("signal silent since 10:00:01 UTC: the other side closed the connection", absent.Message!.Text);
    }

    // A feed of another kind than the signal is as well as its last reading is fresh.
    [Fact]
    public void A_reading_of_any_kind_keeps_its_feed_well()
    {
        Fold fold = new();
        _ = Step(fold, 0, new SessionOpened(Settings with { Feeds = [FeedSettings.Signal, new("bubble", FeedRole.Other)] }));
        _ = Step(fold, 1, new Levelled("bubble"));
        Snapshot now = Step(fold, 2, new Ticked());
        Assert.Equal(new FeedNow("bubble", FeedRole.Other, "", FeedHealth.Good, null, null, 1, 0), now.Feeds[1]);
        Assert.Equal(FeedHealth.Waiting, now.Feeds[0].Health);
    }

    [Fact]
    public void Twenty_bad_records_in_a_row_make_a_feed_unreadable_and_one_good_one_mends_it()
    {
        Fold fold = new();
        _ = Step(fold, 0, new SessionOpened(Settings));
        Snapshot bad = Step(fold, 1, new FeedLineRejected("signal", "column 1: 'x' is not a number", 20, 20));
        Snapshot good = Step(fold, 1.1, new SignalMeasured("signal", new SignalSample { LevelDb = -60 }));

        Assert.Equal(FeedHealth.Unreadable, bad.Feeds[0].Health);
        Assert.Equal(FeedHealth.Good, good.Feeds[0].Health);
        Assert.Equal(20, good.Feeds[0].Rejected);
    }

    [Fact]
    public void A_journal_that_cannot_be_written_outweighs_every_other_message()
    {
        Fold fold = new();
        _ = Step(fold, 0, new SessionOpened(Settings));
        _ = Step(fold, 1, new FeedLost("signal", "refused"));
        Snapshot snapshot = Step(fold, 2, new JournalChanged("the disk is full"));

        Assert.Equal(MessageWeight.Warning, snapshot.Message!.Weight);
        Assert.Equal("the session is not being recorded: the disk is full", snapshot.Message.Text);
    }

    [Fact]
    public void Ages_of_a_feed_are_judged_in_real_time_when_the_session_runs_faster()
    {
        Fold fold = new();
        _ = Step(fold, 0, new SessionOpened(Settings with { Speed = 10 }));
        _ = Step(fold, 1, new SignalMeasured("signal", new SignalSample { SnrDb = 7 }));

        Assert.Equal(FeedHealth.Good, Step(fold, 19, new Ticked()).Feeds[0].Health);
        Assert.Equal(FeedHealth.Stale, Step(fold, 23, new Ticked()).Feeds[0].Health);
    }

    [Fact]
    public void Cautions_sound_again_when_a_search_that_was_asked_for_is_over()
    {
        Fold fold = new();
        DateTimeOffset aos = Step(fold, 0, new SessionOpened(Settings)).Sky!.Pass.Aos.Utc;
        double rise = (aos - Start).TotalSeconds;
        _ = Step(fold, rise + 20, new SignalMeasured("signal", new SignalSample { SnrDb = 7, Locked = true }));
        Snapshot asked = Step(fold, rise + 20.1, new OperatorPressed(OperatorKey.Search));
        Assert.Equal("search for the peak: the tone sounds for 30 s", asked.Message!.Text);
        for (int i = 1; i <= 31; i++)
        {
            _ = Step(fold, rise + 20.1 + i, new SignalMeasured("signal", new SignalSample { SnrDb = 7, Locked = true }));
        }

        List<CueKind> heard = [.. Step(fold, rise + 52, new FeedLineRejected("signal", "column 1: 'x' is not a number", 20, 20)).Cues.Started.Select(c => c.Kind)];
        for (int i = 1; i <= 30; i++)
        {
            heard.AddRange(Step(fold, rise + 52 + (i / 10.0), new Ticked()).Cues.Started.Select(c => c.Kind));
        }

        Assert.Contains(CueKind.Caution, heard);
    }

    [Fact]
    public void A_step_that_throws_leaves_everything_as_it_was()
    {
        Fold fold = new();
        _ = Step(fold, 0, new SessionOpened(Settings));
        _ = Step(fold, 1, new SignalMeasured("signal", new SignalSample { SnrDb = 7 }));
        Assert.ThrowsAny<Exception>(() => Step(fold, 2, new SessionOpened(Settings with { DishDiameterMetres = 0.0, Feeds = [new("other", FeedRole.Other)] })));
        Snapshot after = Step(fold, 2, new Ticked());

        Assert.Equal("signal", Assert.Single(after.Feeds).Name);
        Assert.Equal(Settings.DishDiameterMetres, after.Settings!.DishDiameterMetres);
    }

    [Fact]
    public void Opening_again_starts_afresh_so_a_jump_back_shows_the_same_as_the_first_time()
    {
        static string Run(Fold fold)
        {
            SnapshotDigest digest = new();
            digest.Add(Step(fold, 0, new SessionOpened(Settings)));
            for (int i = 1; i < 200; i++)
            {
                digest.Add(Step(fold, i, i % 3 == 0 ? new SignalMeasured("signal", new SignalSample { SnrDb = i % 11 }) : new Ticked()));
            }

            return digest.Current();
        }

        Fold fold = new();
        Assert.Equal(Run(fold), Run(fold));
        Assert.Equal(Run(new Fold()), Run(fold));
    }

    private static Snapshot Step(Fold fold, double seconds, SessionEvent happened) =>
        fold.Step(new Envelope(1, TimeSpan.FromSeconds(seconds), Start.AddSeconds(seconds), "test", happened));

    private sealed record Levelled(string Feed) : FeedReading;
}
