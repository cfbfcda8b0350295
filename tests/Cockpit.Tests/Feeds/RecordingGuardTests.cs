using Cockpit.Devices.Recordings;
using Cockpit.Session.Events;
using Cockpit.Session.Pipeline;
using Cockpit.Session.State;
using Cockpit.Tests.Journal;
using Microsoft.Extensions.Time.Testing;

namespace Cockpit.Tests.Feeds;

public sealed class RecordingGuardTests
{
    private const string Feed = "signal";
    private readonly Fold _fold = new();
    private readonly DateTimeOffset _start = new(2026, 11, 25, 10, 15, 0, TimeSpan.Zero);
    private long _sequence;

    [Fact]
    public void A_file_that_grows_is_reported_twice_a_second_with_its_rate_and_how_long_it_stood()
    {
        FakeTimeProvider time = new();
        GrowthWatch watch = new(Path.GetTempPath(), time);
        GrowthReport last = default;
        int reports = 0;
        for (int tenth = 0; tenth < 50; tenth++, time.Advance(TimeSpan.FromMilliseconds(100)))
        {
            if (watch.Look(tenth * 960_000) is { } report)
            {
                last = report;
                reports++;
            }
        }

        Assert.Equal(10, reports);
        Assert.Equal(9_600_000, last.BytesPerSecond, 1.0);
        Assert.True(last.FreeBytes > 0);
        time.Advance(TimeSpan.FromSeconds(4));
        Assert.Equal(TimeSpan.FromSeconds(4.1), watch.Look(49 * 960_000)!.Value.StoodStill);
    }

    [Fact]
    public void A_recording_that_stood_still_too_long_is_stopped_and_time_goes_on_without_reports()
    {
        Opened();
        Step(1, new RecordingWatched(Feed, 9_600_000, 9_600_000, TimeSpan.Zero, 90_000_000_000));
        RecordingNow now = Step(2, new Ticked()).Feeds[0].Recording!;
        Assert.False(now.Stopped);
        Assert.Equal(156.25, now.MinutesLeft!.Value, 2);
        Assert.True(Step(5, new Ticked()).Feeds[0].Recording!.Stopped);
    }

    [Fact]
    public void A_disk_that_is_full_soon_is_a_warning_in_words()
    {
        Opened();
        Snapshot snapshot = Step(1, new RecordingWatched(Feed, 9_600_000, 10_000_000, TimeSpan.Zero, 1_200_000_000));
        Assert.Equal(new Message("the disk of the recording is full in 2.0 minutes: make room", MessageWeight.Warning, snapshot.Utc), snapshot.Message);
    }

    [Fact]
    public void A_remark_stands_until_it_is_taken_back()
    {
        Opened();
        Step(1, new SignalMeasured(Feed, new() { SnrDb = 9 }));
        Snapshot snapshot = Step(1.1, new FeedRemarked(Feed, "the receiver is overloaded: turn its gain down"));
        Assert.Equal(("signal: the receiver is overloaded: turn its gain down", MessageWeight.Caution), (snapshot.Message!.Text, snapshot.Message.Weight));
        Assert.NotNull(Step(1.2, new SignalMeasured(Feed, new() { SnrDb = 9 })).Feeds[0].Remark);
        Assert.Null(Step(1.3, new FeedRemarked(Feed, null)).Feeds[0].Remark);
    }

    private void Opened() => Step(0, EventSamples.All.OfType<SessionOpened>().Single());

    private Snapshot Step(double seconds, SessionEvent happened)
    {
        // The sample session runs at ten times real time: ages of what comes from outside are real.
        TimeSpan elapsed = TimeSpan.FromSeconds(seconds * 10);
        return _fold.Step(new Envelope(++_sequence, elapsed, _start + elapsed, Feed, happened));
    }
}
