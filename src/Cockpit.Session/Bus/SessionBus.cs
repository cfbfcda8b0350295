using Cockpit.Session.Events;

namespace Cockpit.Session.Bus;

/// <summary>The one order of a session: numbers and dates every event and hands it to every subscriber.</summary>
/// <remarks>
/// Safe from any thread. An event published from inside a subscriber waits until the present one has reached everybody,
/// so that all see the same order. What a subscriber that throws means is the policy of <see cref="FanOut{T}"/>.
/// </remarks>
public sealed class SessionBus : IEventSink, IObservable<Envelope>, IDisposable
{
    private readonly Lock _gate = new();
    private readonly Queue<Envelope> _pending = new();
    private readonly FanOut<Envelope> _parts;
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

        _parts = new FanOut<Envelope>(this);
        _clock = clock;
        _utcAtZero = utcAtZero;
    }

    /// <inheritdoc/>
    public void Publish(string source, SessionEvent sessionEvent) => Publish(source, sessionEvent, last: false);

    /// <summary>Publishes the last event; what anybody publishes later is dropped, what was published before still reaches everybody.</summary>
    /// <param name="source">Who publishes.</param>
    /// <param name="sessionEvent">What happened last.</param>
    public void PublishLast(string source, SessionEvent sessionEvent) => Publish(source, sessionEvent, last: true);

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

    /// <summary>Subscribes a named part until the returned object is disposed.</summary>
    /// <param name="part">Name for the message when it fails.</param>
    /// <param name="onEnvelope">Called for each event, in order, on the publishing thread: must be quick.</param>
    public IDisposable Subscribe(string part, Action<Envelope> onEnvelope) => _parts.Add(part, onEnvelope);

    /// <inheritdoc/>
    public IDisposable Subscribe(IObserver<Envelope> observer) => _parts.Add(observer.GetType().Name, observer.OnNext);

    /// <summary>Ends the order: everything published later is dropped.</summary>
    public void Dispose()
    {
        lock (_gate)
        {
            _closed = true;
        }
    }

    private void Publish(string source, SessionEvent sessionEvent, bool last)
    {
        lock (_gate)
        {
            if (_closed)
            {
                return;
            }

            _closed = last;
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
                if (!_pending.TryDequeue(out next))
                {
                    _delivering = false;
                    return;
                }
            }

            _parts.Send(next);
        }
    }
}
