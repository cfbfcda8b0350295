using System.Reactive.Subjects;
using Cockpit.Session.Events;

namespace Cockpit.Session.Bus;

/// <summary>The one order of a session: numbers and dates every event and hands it to every subscriber.</summary>
/// <remarks>
/// Safe from any thread. An event published from inside a subscriber waits until the present one has reached everybody,
/// so that all see the same order. A subscriber that throws is taken out and named in a <see cref="PartFailed"/>.
/// </remarks>
public sealed class SessionBus : IEventSink, IObservable<Envelope>, IDisposable
{
    private readonly Lock _gate = new();
    private readonly Queue<Envelope> _pending = new();
    private readonly Subject<Envelope> _subject = new();
    private readonly ISessionClock _clock;
    private DateTimeOffset _utcAtZero;
    private TimeSpan _lastElapsed;
    private long _sequence;
    private bool _delivering;
    private bool _closed;

    /// <summary>Opens a bus.</summary>
    /// <param name="clock">Monotonic time of the session.</param>
    /// <param name="utcAtZero">UTC when that time was zero; the offset must be zero.</param>
    /// <exception cref="ArgumentException">The offset is not zero.</exception>
    public SessionBus(ISessionClock clock, DateTimeOffset utcAtZero)
    {
        if (utcAtZero.Offset != TimeSpan.Zero)
        {
            throw new ArgumentException("session time is UTC: the offset must be zero", nameof(utcAtZero));
        }

        _clock = clock;
        _utcAtZero = utcAtZero;
    }

    /// <inheritdoc/>
    public void Publish(string source, SessionEvent sessionEvent)
    {
        lock (_gate)
        {
            if (_closed)
            {
                return;
            }

            TimeSpan elapsed = _clock.Elapsed;
            _lastElapsed = elapsed > _lastElapsed ? elapsed : _lastElapsed;
            if (sessionEvent is ClockCorrected correction)
            {
                _utcAtZero += correction.Change;
            }

            _pending.Enqueue(new Envelope(++_sequence, _lastElapsed, _utcAtZero + _lastElapsed, source, sessionEvent));
        }

        Deliver();
    }

    /// <summary>Hands on an event of an earlier session with the number, time and source it had then.</summary>
    public void Replay(Envelope envelope)
    {
        lock (_gate)
        {
            if (_closed)
            {
                return;
            }

            _pending.Enqueue(envelope);
        }

        Deliver();
    }

    /// <summary>Subscribes a named part; if it throws it is taken out and the others go on.</summary>
    /// <param name="part">Name for the message.</param>
    /// <param name="onEnvelope">Called for each event, in order, on the publishing thread: must be quick.</param>
    public IDisposable Subscribe(string part, Action<Envelope> onEnvelope) => Subscribe(new Guard(this, part, onEnvelope));

    /// <inheritdoc/>
    public IDisposable Subscribe(IObserver<Envelope> observer)
    {
        Guard guard = observer as Guard ?? new Guard(this, observer.GetType().Name, observer.OnNext);
        guard.Subscription = _subject.Subscribe(guard);
        return guard;
    }

    /// <summary>Ends the order: everything published later is dropped.</summary>
    public void Dispose()
    {
        lock (_gate)
        {
            _closed = true;
        }

        _subject.Dispose();
    }

    private void Deliver()
    {
        lock (_gate)
        {
            if (_delivering)
            {
                return;
            }

            _delivering = true;
        }

        while (true)
        {
            Envelope? next;
            lock (_gate)
            {
                if (_closed || !_pending.TryDequeue(out next))
                {
                    _delivering = false;
                    return;
                }
            }

            _subject.OnNext(next);
        }
    }

    /// <summary>Keeps one subscriber's failure away from the others.</summary>
    private sealed class Guard(SessionBus bus, string part, Action<Envelope> onEnvelope) : IObserver<Envelope>, IDisposable
    {
        private bool _out;

        public IDisposable? Subscription { get; set; }

        public void OnNext(Envelope value)
        {
            if (_out)
            {
                return;
            }

            try
            {
                onEnvelope(value);
            }
#pragma warning disable CA1031 // One failing part must never end the pass: it is named and taken out.
            catch (Exception failure)
#pragma warning restore CA1031
            {
                Dispose();
                bus.Publish(Sources.Program, new PartFailed(part, failure.Message));
            }
        }

        public void OnError(Exception error) => Dispose();

        public void OnCompleted() => Dispose();

        public void Dispose()
        {
            _out = true;
            Subscription?.Dispose();
        }
    }
}
