using Cockpit.Core.Signal;
using Cockpit.Devices.Feeds;
using Cockpit.Devices.Ports;
using Cockpit.Session.Bus;
using Cockpit.Session.Computers.Feeds;
using Cockpit.Session.Events;
using Microsoft.Extensions.Time.Testing;

namespace Cockpit.Tests.Feeds;

public sealed class LineFeedTests
{
    [Fact]
    public async Task Lines_become_measurements_and_mistakes_become_rejections()
    {
        FakeTimeProvider time = new();
        RecordingSink sink = new();
        ScriptedPort port = new(listener =>
        {
            listener.Connected("here");
            listener.Received("# level of PETREL 2\n-61.2 dB\nsn"u8);
            time.Advance(TimeSpan.FromSeconds(1));
            listener.Received("r=7.4\n-61,2\n"u8);
            time.Advance(TimeSpan.FromSeconds(1));
            listener.Received(Letters(5000));
            listener.Received("\n"u8);
            listener.Lost("gone");
            listener.Connected("back", startsInside: true);
            listener.Received("3 dB\nlock=1"u8, wholeRecords: true);
        });
        await using LineFeed feed = Started(port, sink, time);
        await port.Played;
        Assert.Equal(
            [
                new FeedConnected("signal", "here"),
                new SignalMeasured("signal", new SignalSample { LevelDb = -61.2 }),
                new SignalMeasured("signal", new SignalSample { SnrDb = 7.4 }),
                new FeedLineRejected("signal", "column 4: decimal comma; write numbers with a point, and separate pairs by spaces", 1, 1),
                new FeedLineRejected("signal", "a line is longer than 4096 bytes; send one short record a line", 2, 2),
                new FeedLost("signal", "gone"),
                new FeedConnected("signal", "back"),
                new SignalMeasured("signal", new SignalSample { Locked = true }),
            ],
            sink.Take());
        Assert.Equal(new FeedCounts(3, 2, 0), feed.Counts);
    }

    [Fact]
    public async Task A_key_in_a_record_is_pressed_after_what_was_measured_with_it_and_alone()
    {
        RecordingSink sink = new();
        FakeTimeProvider time = new();
        ScriptedPort port = new(listener =>
        {
            listener.Connected("here");
            listener.Received("snr=7.4 key=peaked\nkey=moved\n{\"key\":\"not-moved\"}\nkey=jump\n"u8);
        });
        await using LineFeed feed = Started(port, sink, time);
        await port.Played;
        Assert.Equal(
            [
                new FeedConnected("signal", "here"),
                new SignalMeasured("signal", new SignalSample { SnrDb = 7.4 }),
                new OperatorPressed(OperatorKey.Peaked),
                new OperatorPressed(OperatorKey.Moved),
                new OperatorPressed(OperatorKey.NotMoved),
                new FeedLineRejected("signal", "column 5: key is \"jump\"; expected peaked, moved, not-moved, search", 1, 1),
            ],
            sink.Take());
    }

    // Bytes that come without the end of a line are no silence: after some of them the feed is unreadable, not silent.
    [Fact]
    public async Task A_stream_without_line_ends_is_rejected_while_it_comes()
    {
        FakeTimeProvider time = new();
        RecordingSink sink = new();
        ScriptedPort port = new(listener =>
        {
            for (int i = 0; i < 40; i++)
            {
                listener.Received(Letters(16384));
                time.Advance(TimeSpan.FromMilliseconds(50));
            }
        });
        await using LineFeed feed = Started(port, sink, time);
        await port.Played;
        FeedLineRejected[] rejected = [.. sink.Take().Cast<FeedLineRejected>()];
        Assert.Equal("a line is longer than 4096 bytes; send one short record a line", rejected[0].Reason);
        Assert.Matches("^[0-9]+ bytes came without the end of a line; send one short record a line$", rejected[^1].Reason);
        Assert.InRange(rejected[^1].InARow, FeedComputer.UnreadableAfter, 40);
    }

    [Fact]
    public async Task A_port_that_fails_in_an_unforeseen_way_is_told_and_run_again()
    {
        FakeTimeProvider time = new();
        RecordingSink sink = new();
        int runs = 0;
        Task first = sink.Next;
        await using LineFeed feed = Started(new ScriptedPort(_ => throw new InvalidOperationException($"run {++runs}")), sink, time);
        await first;
        Assert.Equal([new FeedLost("signal", "script failed (run 1); it is tried again")], sink.Take());
        Task second = sink.Next;
        while (!second.IsCompleted)
        {
            // The feed asks for its wait after it has told the failure, on its own thread.
            time.Advance(TimeSpan.FromSeconds(1));
            await Task.Yield();
        }

        Assert.Equal([new FeedLost("signal", "script failed (run 2); it is tried again")], sink.Take());
    }

    // A port with much to read before it first waits (a big file from its start) must not hold up whoever starts the feed.
    [Fact]
    public async Task A_feed_starts_at_once_however_long_its_port_reads()
    {
        using ManualResetEventSlim readOn = new();
        ScriptedPort port = new(_ => readOn.Wait(TimeSpan.FromSeconds(30)));
        await using LineFeed feed = Started(port, new RecordingSink(), TimeProvider.System);
        Assert.False(port.Played.IsCompleted);
        readOn.Set();
        await port.Played;
    }

    [Fact]
    public async Task Samples_without_line_ends_are_told_as_what_they_look_like()
    {
        RecordingSink sink = new();
        ScriptedPort port = new(listener => listener.Received(new byte[5000]));
        await using LineFeed feed = Started(port, sink, new FakeTimeProvider());
        await port.Played;
        Assert.Equal([new FeedLineRejected("signal", "this looks like IQ samples: add ?format=ci16&rate=3000000, or what they are, to the address", 1, 1)], sink.Take());
    }

    [Fact]
    public async Task How_lines_are_read_is_told_once_when_the_first_lines_agree()
    {
        FakeTimeProvider time = new();
        RecordingSink sink = new();
        ScriptedPort port = new(listener =>
        {
            for (int k = 0; k < 5; k++)
            {
                listener.Received("S/N 7 dB\n"u8);
                time.Advance(TimeSpan.FromSeconds(1));
            }
        });
        await using LineFeed feed = Started(port, sink, time);
        await port.Played;
        Assert.Equal([new FeedNoted("signal", "reads 'S/N' as snr")], sink.Take().OfType<FeedNoted>());
    }

    private static byte[] Letters(int count) => [.. Enumerable.Repeat((byte)'x', count)];

    private static LineFeed Started(IPort port, IEventSink sink, TimeProvider time)
    {
        LineFeed feed = new(port, "signal", new SignalGrammar());
        feed.Open();
        feed.Start(sink, time);
        return feed;
    }

    /// <summary>Plays a script, then waits to be stopped.</summary>
    private sealed class ScriptedPort(Action<IPortListener> script) : IPort
    {
        private readonly TaskCompletionSource _played = new(TaskCreationOptions.RunContinuationsAsynchronously);

        public Task Played => _played.Task;

        public string Where => "script";

        public void Open()
        {
        }

        public Task RunAsync(IPortListener listener, CancellationToken stop)
        {
            script(listener);
            _played.SetResult();
            return Task.Delay(Timeout.InfiniteTimeSpan, TimeProvider.System, stop);
        }

        public void Dispose()
        {
        }
    }
}
