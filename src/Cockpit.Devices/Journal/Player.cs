using System.Collections.Immutable;
using Cockpit.Session.Events;

namespace Cockpit.Devices.Journal;

/// <summary>Plays the events of a session again, each at its time, with the number, time and source it had.</summary>
/// <remarks>
/// Paused at the start when it is made. Safe from any thread; events are played one at a time and in order, on the thread that
/// resumes or jumps or on a timer's. After the disposal nothing is played.
/// </remarks>
public sealed class Player : IDisposable
{
    /// <summary>Slowest rate against the time of the session.</summary>
    public const double SlowestRate = 0.25;

    /// <summary>Fastest rate against the time of the session.</summary>
    public const double FastestRate = 64;

    private static readonly TimeSpan TimerStep = TimeSpan.FromMilliseconds(1);

    /// <summary>A timer takes at most 49 days; after this one it is looked again.</summary>
    private static readonly TimeSpan LongestWait = TimeSpan.FromHours(1);

    private readonly Lock _gate = new();
    private readonly ImmutableArray<Envelope> _envelopes;
    private readonly TimeProvider _time;
    private readonly Action<Envelope> _play;
    private readonly Action _restarted;
    private readonly ITimer _timer;
    private int _next;
    private TimeSpan _anchor;
    private long _anchorTime;
    private double _rate = 1;
    private bool _running;
    private bool _closed;

    /// <summary>Makes a player.</summary>
    /// <param name="envelopes">The session, in its order.</param>
    /// <param name="time">What the playing goes by.</param>
    /// <param name="play">Takes each event when its time has come; must be quick.</param>
    /// <param name="restarted">Told before the first event is played once more, so that the fold begins anew.</param>
    /// <exception cref="ArgumentException">There are no events.</exception>
    public Player(ImmutableArray<Envelope> envelopes, TimeProvider time, Action<Envelope> play, Action restarted)
    {
        if (envelopes.IsDefaultOrEmpty)
        {
            throw new ArgumentException("a session without events cannot be played", nameof(envelopes));
        }

        _envelopes = envelopes;
        _time = time;
        _play = play;
        _restarted = restarted;
        _timer = time.CreateTimer(_ => OnTimer(), null, Timeout.InfiniteTimeSpan, Timeout.InfiniteTimeSpan);
    }

    /// <summary>Session time of the last event.</summary>
    public TimeSpan Length => _envelopes[^1].Elapsed;

    /// <summary>Session time that is played now, zero to <see cref="Length"/>.</summary>
    public TimeSpan Position
    {
        get
        {
            lock (_gate)
            {
                return PositionNow();
            }
        }
    }

    /// <summary>Session seconds for each real second; set values outside the two limits become the nearer limit.</summary>
    public double Rate
    {
        get
        {
            lock (_gate)
            {
                return _rate;
            }
        }

        set
        {
            lock (_gate)
            {
                Anchor(PositionNow());
                _rate = double.IsNaN(value) ? _rate : Math.Clamp(value, SlowestRate, FastestRate);
                PlayDue();
            }
        }
    }

    /// <summary>Whether it stands still because it was not resumed.</summary>
    public bool IsPaused
    {
        get
        {
            lock (_gate)
            {
                return !_running;
            }
        }
    }

    /// <summary>Whether every event was played.</summary>
    public bool IsAtEnd
    {
        get
        {
            lock (_gate)
            {
                return _next == _envelopes.Length;
            }
        }
    }

    /// <summary>Plays on from the present position.</summary>
    public void Resume()
    {
        lock (_gate)
        {
            Anchor(PositionNow());
            _running = true;
            PlayDue();
        }
    }

    /// <summary>Stands still.</summary>
    public void Pause()
    {
        lock (_gate)
        {
            Anchor(PositionNow());
            _running = false;
        }
    }

    /// <summary>Goes to another time: forwards all events up to it are played at once, backwards they are played anew from the first.</summary>
    /// <param name="position">Session time; outside the session it becomes its nearer end.</param>
    public void JumpTo(TimeSpan position)
    {
        lock (_gate)
        {
            if (_closed)
            {
                return;
            }

            TimeSpan target = position < TimeSpan.Zero ? TimeSpan.Zero : position > Length ? Length : position;
            if (target < PositionNow())
            {
                _next = 0;
                _restarted();
            }

            Anchor(target);
            PlayUpTo(target);
            PlayDue();
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        lock (_gate)
        {
            _closed = true;
            _timer.Dispose();
        }
    }

    private void OnTimer()
    {
        lock (_gate)
        {
            PlayDue();
        }
    }

    private void PlayDue()
    {
        if (!_running || _closed)
        {
            return;
        }

        PlayUpTo(PositionNow());
        if (_running && !_closed && _next < _envelopes.Length)
        {
            _timer.Change(RealTimeTo(_envelopes[_next].Elapsed), Timeout.InfiniteTimeSpan);
        }
    }

    private void PlayUpTo(TimeSpan position)
    {
        while (!_closed && _next < _envelopes.Length && _envelopes[_next].Elapsed <= position)
        {
            // Counted first: whoever takes the event may pause or jump.
            _play(_envelopes[_next++]);
        }
    }

    private TimeSpan PositionNow()
    {
        TimeSpan position = _running ? _anchor + (_time.GetElapsedTime(_anchorTime) * _rate) : _anchor;
        return position < Length ? position : Length;
    }

    private void Anchor(TimeSpan position)
    {
        _anchor = position;
        _anchorTime = _time.GetTimestamp();
    }

    /// <summary>Real time to a session time, rounded up to what timers can do: waking too early would only mean to wait again.</summary>
    private TimeSpan RealTimeTo(TimeSpan elapsed)
    {
        double steps = Math.Ceiling((elapsed - PositionNow()) / _rate / TimerStep);
        return TimerStep * Math.Clamp(steps, 1, LongestWait / TimerStep);
    }
}
