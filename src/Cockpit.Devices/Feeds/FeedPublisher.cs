using Cockpit.Core.Signal;
using Cockpit.Session.Bus;
using Cockpit.Session.Events;

namespace Cockpit.Devices.Feeds;

/// <summary>What a feed has seen so far.</summary>
/// <param name="Measured">Good records.</param>
/// <param name="Rejected">Bad records.</param>
/// <param name="Superseded">Good records that were not published because a newer one came within the same period.</param>
public readonly record struct FeedCounts(long Measured, long Rejected, long Superseded);

/// <summary>Publishes what a feed sees, no faster than the session can use it: of what comes too fast the latest wins.</summary>
/// <remarks>Safe from several threads; the order of events is the order of the calls. After the disposal nothing is published.</remarks>
public sealed class FeedPublisher : IDisposable
{
    /// <summary>Shortest time between two published measurements: 20 a second.</summary>
    public static readonly TimeSpan MeasuredPeriod = TimeSpan.FromMilliseconds(50);

    /// <summary>Shortest time between two published rejections: two a second; the totals in them lose nothing.</summary>
    public static readonly TimeSpan RejectedPeriod = TimeSpan.FromMilliseconds(500);

    private readonly Lock _gate = new();
    private readonly string _feed;
    private readonly IEventSink _sink;
    private readonly TimeProvider _time;
    private readonly ITimer _timer;
    private SignalSample? _sample;
    private string? _rejection;
    private long _lastMeasured;
    private long _lastRejected;
    private int _inARow;
    private FeedCounts _counts;
    private bool _closed;

    /// <summary>Makes a publisher.</summary>
    /// <param name="feed">Name of the feed; it is the source of its events too.</param>
    /// <param name="sink">Where they go.</param>
    /// <param name="time">What the periods go by.</param>
    public FeedPublisher(string feed, IEventSink sink, TimeProvider time)
    {
        _feed = feed;
        _sink = sink;
        _time = time;
        _lastMeasured = _lastRejected = time.GetTimestamp() - time.TimestampFrequency;
        _timer = time.CreateTimer(_ => Due(), null, Timeout.InfiniteTimeSpan, Timeout.InfiniteTimeSpan);
    }

    /// <summary>What was seen so far.</summary>
    public FeedCounts Counts
    {
        get
        {
            lock (_gate)
            {
                return _counts;
            }
        }
    }

    /// <summary>The feed is connected.</summary>
    public void Connected(string where)
    {
        lock (_gate)
        {
            PublishWaiting();
            Publish(new FeedConnected(_feed, where));
        }
    }

    /// <summary>The feed is lost.</summary>
    public void Lost(string reason)
    {
        lock (_gate)
        {
            PublishWaiting();
            Publish(new FeedLost(_feed, reason));
        }
    }

    /// <summary>A good record came.</summary>
    public void Measured(SignalSample sample)
    {
        lock (_gate)
        {
            _counts = _counts with { Measured = _counts.Measured + 1, Superseded = _counts.Superseded + (_sample is null ? 0 : 1) };
            _inARow = 0;

            // A rejection from before this good record would now say the wrong thing; its number is in the total of the next.
            _rejection = null;
            _sample = sample;
            PublishDue();
        }
    }

    /// <summary>A bad record came.</summary>
    public void Rejected(string reason)
    {
        lock (_gate)
        {
            _counts = _counts with { Rejected = _counts.Rejected + 1 };
            _inARow = _inARow == int.MaxValue ? _inARow : _inARow + 1;
            _rejection = reason;
            PublishDue();
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        lock (_gate)
        {
            PublishWaiting();
            _closed = true;
            _timer.Dispose();
        }
    }

    private void Due()
    {
        lock (_gate)
        {
            PublishDue();
        }
    }

    private void PublishDue()
    {
        TimeSpan sampleIn = _sample is null ? Timeout.InfiniteTimeSpan : Left(_lastMeasured, MeasuredPeriod);
        if (sampleIn == TimeSpan.Zero)
        {
            PublishSample();
        }

        TimeSpan rejectionIn = _rejection is null ? Timeout.InfiniteTimeSpan : Left(_lastRejected, RejectedPeriod);
        if (rejectionIn == TimeSpan.Zero)
        {
            PublishRejection();
        }

        TimeSpan next = (sampleIn > TimeSpan.Zero, rejectionIn > TimeSpan.Zero) switch
        {
            (true, true) => sampleIn < rejectionIn ? sampleIn : rejectionIn,
            (true, false) => sampleIn,
            (false, true) => rejectionIn,
            _ => Timeout.InfiniteTimeSpan,
        };
        if (!_closed && next > TimeSpan.Zero)
        {
            _timer.Change(next, Timeout.InfiniteTimeSpan);
        }
    }

    private void PublishWaiting()
    {
        PublishSample();
        PublishRejection();
    }

    private void PublishSample()
    {
        if (_sample is { } sample)
        {
            _sample = null;
            _lastMeasured = _time.GetTimestamp();
            Publish(new SignalMeasured(_feed, sample));
        }
    }

    private void PublishRejection()
    {
        if (_rejection is { } rejection)
        {
            _rejection = null;
            _lastRejected = _time.GetTimestamp();
            Publish(new FeedLineRejected(_feed, rejection, _counts.Rejected, _inARow));
        }
    }

    private void Publish(SessionEvent fact)
    {
        if (!_closed)
        {
            _sink.Publish(_feed, fact);
        }
    }

    private TimeSpan Left(long since, TimeSpan period)
    {
        TimeSpan left = period - _time.GetElapsedTime(since);
        return left > TimeSpan.Zero ? left : TimeSpan.Zero;
    }
}
