using Cockpit.Core.Signal;
using Cockpit.Devices.Feeds;
using Cockpit.Session.Bus;
using Cockpit.Session.Events;
using Microsoft.Extensions.Time.Testing;

namespace Cockpit.Tests.Feeds;

public sealed class FeedPublisherTests : IDisposable
{
    private readonly FakeTimeProvider _time = new();
    private readonly RecordingSink _sink = new();
    private readonly FeedPublisher _publisher;

    public FeedPublisherTests() => _publisher = new FeedPublisher("signal", _sink, _time);

    public void Dispose() => _publisher.Dispose();

    [Fact]
    public void Ten_measurements_a_second_are_published_as_they_come()
    {
        for (int i = 0; i < 20; i++)
        {
            _publisher.Measured(Measured(i));
            Assert.Equal([Measured(i)], _sink.Take());
            Advance(100);
        }

        Assert.Equal(new FeedCounts(20, 0, 0), _publisher.Counts);
    }

    [Fact]
    public void Of_a_thousand_a_second_twenty_are_published_each_the_latest_and_the_rest_are_counted()
    {
        for (int i = 0; i < 1000; i++)
        {
            _publisher.Measured(Measured(i));
            Advance(1);
        }

        SessionEvent[] published = _sink.Take();
        Assert.InRange(published.Length, 20, 21);
        Assert.Equal([Measured(0), Measured(49), Measured(99)], published[..3]);
        Assert.Equal(1000 - published.Length, _publisher.Counts.Superseded);
    }

    [Fact]
    public void The_last_of_a_burst_is_published_when_its_time_comes()
    {
        for (int i = 0; i < 5; i++)
        {
            _publisher.Measured(Measured(i));
        }

        Assert.Equal([Measured(0)], _sink.Take());
        Advance(49);
        Assert.Empty(_sink.Take());
        Advance(1);
        Assert.Equal([Measured(4)], _sink.Take());
        Advance(1000);
        Assert.Empty(_sink.Take());
        Assert.Equal(new FeedCounts(5, 0, 3), _publisher.Counts);
    }

    // A receiver that prints one value a line prints them all at once: none may be lost because the next came too fast.
    [Fact]
    public void Values_that_come_line_by_line_at_once_are_told_together()
    {
        _publisher.Measured(new SignalMeasured("signal", new SignalSample { LevelDb = -61 }));
        _publisher.Measured(new SignalMeasured("signal", new SignalSample { SnrDb = 7 }));
        _publisher.Measured(new SignalMeasured("signal", new SignalSample { Locked = true, SnrDb = 8 }));
        _publisher.Measured(new SignalMeasured("signal", new SignalSample { Frames = 12 }));
        Advance(50);
        Assert.Equal(
            [new SignalMeasured("signal", new SignalSample { LevelDb = -61 }), new SignalMeasured("signal", new SignalSample { SnrDb = 8, Locked = true, Frames = 12 })],
            _sink.Take());
    }

    [Fact]
    public void A_flood_of_bad_lines_gives_two_events_a_second_with_full_totals()
    {
        for (int i = 1; i <= 3000; i++)
        {
            _publisher.Rejected($"column {i}");
            Advance(1);
        }

        SessionEvent[] published = _sink.Take();
        Assert.Equal(7, published.Length);
        Assert.Equal(new FeedLineRejected("signal", "column 1", 1, 1), published[0]);
        Assert.Equal(new FeedLineRejected("signal", "column 3000", 3000, 3000), published[^1]);
    }

    [Fact]
    public void A_good_line_ends_the_row_of_bad_ones()
    {
        _publisher.Rejected("a");
        _publisher.Rejected("b");
        _publisher.Measured(Measured(7));
        Advance(1000);
        _publisher.Rejected("c");
        Assert.Equal([new FeedLineRejected("signal", "a", 1, 1), Measured(7), new FeedLineRejected("signal", "c", 3, 1)], _sink.Take());
    }

    [Fact]
    public void What_waits_is_published_before_the_feed_is_lost()
    {
        _publisher.Measured(Measured(1));
        _publisher.Measured(Measured(2));
        _publisher.Lost("gone");
        _publisher.Connected("back");
        Assert.Equal([Measured(1), Measured(2), new FeedLost("signal", "gone"), new FeedConnected("signal", "back")], _sink.Take());
        Advance(1000);
        Assert.Empty(_sink.Take());
    }

    [Fact]
    public void After_the_end_nothing_is_published()
    {
        _publisher.Measured(Measured(1));
        _publisher.Measured(Measured(2));
        _publisher.Dispose();
        _sink.Take();
        _publisher.Measured(Measured(3));
        _publisher.Lost("late");
        Advance(1000);
        Assert.Empty(_sink.Take());
    }

    // Two kinds of readings over one feed, as of a receiver that also says where its dish points.
    [Fact]
    public void Each_kind_of_reading_has_its_own_pace_and_none_supersedes_another()
    {
        for (int i = 0; i < 3; i++)
        {
            _publisher.Measured(Measured(i));
            _publisher.Measured(new Counted("signal", i));
        }

        Assert.Equal([Measured(0), new Counted("signal", 0)], _sink.Take());
        Advance(50);
        Assert.Equal([Measured(2), new Counted("signal", 2)], _sink.Take());
        Assert.Equal(new FeedCounts(6, 0, 2), _publisher.Counts);
    }

    // A sink that waits for another thread which itself wants the publisher must not stand still: the publisher lets go before it calls.
    [Fact]
    public void The_sink_may_wait_for_another_thread_that_asks_the_publisher()
    {
        bool answered = false;
        WaitingSink sink = new();
        using FeedPublisher publisher = new("signal", sink, _time);
        sink.Asked = () =>
        {
            Thread other = new(() => _ = publisher.Counts) { IsBackground = true };
            other.Start();
            answered = other.Join(TimeSpan.FromSeconds(10));
        };
        publisher.Measured(Measured(1));
        Assert.True(answered);
    }

    private static SignalMeasured Measured(double level) => new("signal", new SignalSample { LevelDb = level });

    private void Advance(int milliseconds) => _time.Advance(TimeSpan.FromMilliseconds(milliseconds));

    private sealed record Counted(string Feed, int Number) : FeedReading;

    private sealed class WaitingSink : IEventSink
    {
        public Action Asked { get; set; } = () => { };

        public void Publish(string source, SessionEvent sessionEvent) => Asked();
    }
}
