using System.Globalization;
using Cockpit.Core.Formats;
using Cockpit.Core.Formats.Signal;
using Cockpit.Devices.Ports;
using Cockpit.Session.Bus;
using Cockpit.Session.Events;

namespace Cockpit.Devices.Feeds;

/// <summary>The level of the signal as another program tells it, line by line; it never ends by itself, whatever the sender does.</summary>
public sealed class SignalFeed : IAsyncDisposable
{
    private static readonly TimeSpan AfterFailure = TimeSpan.FromSeconds(1);
    private static readonly TimeSpan ClosingPatience = TimeSpan.FromSeconds(2);

    private readonly IPort _port;
    private readonly FeedPublisher _publisher;
    private readonly TimeProvider _time;
    private readonly CancellationTokenSource _stop = new();
    private readonly Task _run;

    private SignalFeed(IPort port, IEventSink sink, TimeProvider time)
    {
        _port = port;
        _time = time;
        _publisher = new FeedPublisher(Sources.Signal, sink, time);
        _run = RunAsync(_stop.Token);
    }

    /// <summary>What was seen so far.</summary>
    public FeedCounts Counts => _publisher.Counts;

    /// <summary>Starts a feed.</summary>
    /// <param name="address">Where the lines come from.</param>
    /// <param name="sink">Where its events go, with the source <see cref="Sources.Signal"/>.</param>
    /// <param name="time">What waiting goes by.</param>
    /// <param name="source">What the address belongs to, for the error: an option.</param>
    /// <returns>
    /// The feed; or one sentence when it can never work: a listening port is in use or not allowed, a file is a folder, standard input is
    /// the keyboard. A server or a file that is not there yet is waited for.
    /// </returns>
    public static Parsed<SignalFeed> Start(FeedAddress address, IEventSink sink, TimeProvider time, string source)
    {
        try
        {
            return Start(address.MakePort(time), sink, time);
        }
        catch (PortException failure)
        {
            return new ParseError(source, 0, 0, failure.Message);
        }
    }

    /// <summary>Starts a feed from a port.</summary>
    /// <param name="port">Not yet open; the feed owns it.</param>
    /// <param name="sink">Where its events go.</param>
    /// <param name="time">What waiting goes by.</param>
    /// <exception cref="PortException">The port cannot be had.</exception>
    public static SignalFeed Start(IPort port, IEventSink sink, TimeProvider time)
    {
        port.Open();
        return new SignalFeed(port, sink, time);
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        await _stop.CancelAsync();
        await Task.WhenAny(_run, Task.Delay(ClosingPatience, TimeProvider.System, CancellationToken.None));
        _publisher.Dispose();
        _port.Dispose();
        _stop.Dispose();
    }

    private async Task RunAsync(CancellationToken stop)
    {
        LineTakingListener listener = new(_publisher);
        while (!stop.IsCancellationRequested)
        {
            try
            {
                await _port.RunAsync(listener, stop);
            }
            catch (OperationCanceledException) when (stop.IsCancellationRequested)
            {
                return;
            }
#pragma warning disable CA1031 // A feed's loop: whatever fails in it is told and tried again, the pass goes on.
            catch (Exception failure)
#pragma warning restore CA1031
            {
                _publisher.Lost($"{_port.Where} failed ({failure.Message}); it is tried again");
                await Task.Delay(AfterFailure, _time, stop).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
            }
        }
    }

    /// <summary>Makes lines of bytes and samples of lines.</summary>
    private sealed class LineTakingListener(FeedPublisher publisher) : IPortListener
    {
        private readonly LineFramer _framer = new(SignalLine.LongestLine);
        private long _tooLong;

        public void Connected(string where, bool startsInside = false)
        {
            _framer.Restart(startsInside);
            publisher.Connected(where);
        }

        public void Lost(string reason) => publisher.Lost(reason);

        public void Received(ReadOnlySpan<byte> bytes, bool wholeRecords = false)
        {
            _framer.Add(bytes, Take);
            if (wholeRecords)
            {
                _framer.EndOfRecord(Take);
            }

            for (; _tooLong < _framer.TooLong; _tooLong++)
            {
                publisher.Rejected(string.Create(CultureInfo.InvariantCulture, $"a line is longer than {SignalLine.LongestLine} bytes; send one short record a line"));
            }
        }

        private void Take(ReadOnlySpan<byte> line)
        {
            SignalLine read = SignalLine.Read(line, Sources.Signal);
            if (read.Sample is { } sample)
            {
                publisher.Measured(sample);
            }
            else if (read.Error is { } error)
            {
                publisher.Rejected(string.Create(CultureInfo.InvariantCulture, $"column {error.Column}: {error.Message}"));
            }
        }
    }
}
