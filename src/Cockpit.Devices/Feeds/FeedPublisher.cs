using Cockpit.Session.Bus;
using Cockpit.Session.Events;

namespace Cockpit.Devices.Feeds;

/// <summary>What a feed has seen so far.</summary>
/// <param name="Measured">Good records.</param>
/// <param name="Rejected">Bad records.</param>
/// <param name="Superseded">Good records that were not published because a newer one of their kind came within the same period.</param>
public readonly record struct FeedCounts(long Measured, long Rejected, long Superseded);

/// <summary>Publishes what a feed sees, no faster than the session can use it: of each kind of reading that comes too fast the latest wins, value by value.</summary>
/// <remarks>
/// Safe from several threads; the order of events is the order of the calls. The sink is called outside the lock, so it may call back.
/// What is said after the disposal is dropped.
/// </remarks>
public sealed class FeedPublisher : IDisposable
{
    /// <summary>Shortest time between two published readings of one kind: 20 a second.</summary>
    public static readonly TimeSpan MeasuredPeriod = TimeSpan.FromMilliseconds(50);

    /// <summary>Shortest time between two published rejections: two a second; the totals in them lose nothing.</summary>
    public static readonly TimeSpan RejectedPeriod = TimeSpan.FromMilliseconds(500);

    private readonly Lock _gate = new();
    private readonly string _feed;
    private readonly TimeProvider _time;
    private readonly ITimer _timer;
    private readonly Outbox _outbox;
    private readonly Slot _rejection = new(RejectedPeriod);
    private readonly Dictionary<Type, Slot> _readings = [];
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
        _time = time;
        _outbox = new Outbox(feed, sink);
        _timer = time.CreateTimer(_ => Do(PublishDue), null, Timeout.InfiniteTimeSpan, Timeout.InfiniteTimeSpan);
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
    public void Connected(string where) => Do(() =>
    {
        PublishWaiting();
        _outbox.Put(new FeedConnected(_feed, where));
    });

    /// <summary>The feed is lost.</summary>
    public void Lost(string reason) => Do(() =>
    {
        PublishWaiting();
        _outbox.Put(new FeedLost(_feed, reason));
    });

    /// <summary>A good record came.</summary>
    public void Measured(FeedReading reading) => Do(() =>
    {
        Slot slot = SlotOf(reading);
        _counts = _counts with { Measured = _counts.Measured + 1, Superseded = _counts.Superseded + (slot.Waiting is null ? 0 : 1) };
        _inARow = 0;

        // A rejection from before this good record would now say the wrong thing; its number is in the total of the next.
        _rejection.Waiting = null;
        slot.Waiting = slot.Waiting is FeedReading waiting ? reading.Over(waiting) : reading;
        PublishDue();
    });

    /// <summary>Something else about the feed is to be told; at once, and in its order.</summary>
    public void Say(SessionEvent fact) => Do(() =>
    {
        PublishWaiting();
        _outbox.Put(fact);
    });

    /// <summary>A bad record came.</summary>
    public void Rejected(string reason) => Do(() =>
    {
        _counts = _counts with { Rejected = _counts.Rejected + 1 };
        _inARow = _inARow == int.MaxValue ? _inARow : _inARow + 1;
        _rejection.Waiting = new FeedLineRejected(_feed, reason, _counts.Rejected, _inARow);
        PublishDue();
    });

    /// <inheritdoc/>
    public void Dispose()
    {
        Do(PublishWaiting);
        lock (_gate)
        {
            _closed = true;
            _timer.Dispose();
        }
    }

    /// <summary>Changes the state under the lock, then hands on what that gave.</summary>
    private void Do(Action change)
    {
        lock (_gate)
        {
            if (_closed)
            {
                return;
            }

            change();
        }

        _outbox.HandOn();
    }

    private Slot SlotOf(FeedReading reading)
    {
        if (!_readings.TryGetValue(reading.GetType(), out Slot? slot))
        {
            _readings.Add(reading.GetType(), slot = new Slot(MeasuredPeriod));
        }

        return slot;
    }

    private void PublishDue()
    {
        TimeSpan? next = null;
        foreach (Slot slot in _readings.Values.Append(_rejection))
        {
            if (slot.Left(_time) is not { } left)
            {
                continue;
            }

            if (left == TimeSpan.Zero)
            {
                Publish(slot);
            }
            else
            {
                next = next < left ? next : left;
            }
        }

        if (next is { } wait)
        {
            _timer.Change(wait, Timeout.InfiniteTimeSpan);
        }
    }

    private void PublishWaiting()
    {
        foreach (Slot slot in _readings.Values.Append(_rejection))
        {
            Publish(slot);
        }
    }

    private void Publish(Slot slot)
    {
        if (slot.Take(_time) is { } fact)
        {
            _outbox.Put(fact);
        }
    }

    /// <summary>The latest of one kind that waits for its time.</summary>
    private sealed class Slot(TimeSpan period)
    {
        private long? _last;

        public SessionEvent? Waiting { get; set; }

        /// <summary>How long what waits has to wait on; null when nothing does.</summary>
        public TimeSpan? Left(TimeProvider time)
        {
            TimeSpan left = _last is { } last ? period - time.GetElapsedTime(last) : TimeSpan.Zero;
            return Waiting is null ? null : left > TimeSpan.Zero ? left : TimeSpan.Zero;
        }

        public SessionEvent? Take(TimeProvider time)
        {
            SessionEvent? taken = Waiting;
            Waiting = null;
            _last = taken is null ? _last : time.GetTimestamp();
            return taken;
        }
    }
}
