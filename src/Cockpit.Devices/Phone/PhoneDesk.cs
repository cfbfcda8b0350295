using Cockpit.Core.Formats.Sensors;

namespace Cockpit.Devices.Phone;

/// <summary>Where all that phones say comes together: who is paired, which connection counts, what is handed on. Safe from several threads.</summary>
/// <remarks>The listener is called outside the lock, by whoever brought the news.</remarks>
internal sealed class PhoneDesk : IDisposable
{
    private static readonly TimeSpan Look = TimeSpan.FromMilliseconds(250);

    /// <summary>The page says a press again where it does not know whether it arrived.</summary>
    private static readonly TimeSpan Repeats = TimeSpan.FromSeconds(10);

    /// <summary>Whoever tries codes must not fill the line of messages, nor the journal.</summary>
    private static readonly TimeSpan WrongEvery = TimeSpan.FromSeconds(5);

    private readonly Lock _gate = new();
    private readonly PhonePairing _pairing;
    private readonly PhoneWatch _watch;
    private readonly IPhoneListener _listener;
    private readonly TimeProvider _time;
    private readonly PhoneOrientation _orientation;
    private readonly ITimer _timer;
    private readonly Queue<Action> _news = new();
    private IPhoneLink? _current;
    private (PhoneState State, string Words)? _told;
    private (int Told, long? At) _wrong;
    private (PhoneMessage.Press Press, long At)? _pressed;
    private bool _handingOn;

    public PhoneDesk(PhonePairing pairing, SensorOptions options, int port, IPhoneListener listener, TimeProvider time)
    {
        (_pairing, _listener, _time) = (pairing, listener, time);
        _watch = new PhoneWatch(port, time);
        _orientation = new PhoneOrientation(options, time);
        Allowance = new PhoneAllowance(time);
        _timer = time.CreateTimer(_ => Do(() => { }), null, TimeSpan.Zero, Look);
    }

    /// <summary>What a phone without a socket of its own may say.</summary>
    private PhoneAllowance Allowance { get; }

    /// <summary>How long the pages needed to draw what was sent.</summary>
    public PhoneTimings Timings { get; } = new();

    /// <summary>The token of the address that is shown.</summary>
    public string Token => Locked(() => _pairing.Token);

    /// <summary>Makes a new token, where the last one was used.</summary>
    public string FreshToken() => Locked(() => _pairing.IsSpent ? _pairing.NewToken() : _pairing.Token);

    /// <summary>Whether a phone is connected.</summary>
    public bool IsConnected => Locked(() => _current is not null);

    /// <summary>Whether the page is given under that token.</summary>
    public bool Knows(string token)
    {
        bool knows = false;
        Do(() =>
        {
            _watch.Asked();
            knows = _pairing.Knows(token);
        });
        return knows;
    }

    /// <summary>Answers the first word of a page.</summary>
    /// <returns>Its key; null where it is to be sent away.</returns>
    public string? Greet(string token, string key)
    {
        string? own = null;
        Do(() =>
        {
            own = key.Length == 0 ? _pairing.Pair(token) : _pairing.IsPaired(key) ? key : null;
            if (own is not null && key.Length == 0)
            {
                _orientation.Forget();
            }
        });
        return own;
    }

    /// <summary>Whether a key is that of the paired phone.</summary>
    public bool IsPaired(string key)
    {
        bool paired = false;
        Do(() => paired = _pairing.IsPaired(key));
        return paired;
    }

    /// <summary>A connection begins to count; the one before it ends.</summary>
    public void Enter(IPhoneLink link) => Do(() =>
    {
        IPhoneLink? before = _current;
        _current = link;
        _watch.Entered();
        if (before is not null)
        {
            _news.Enqueue(() => before.End(PhoneClosing.Replaced));
        }
    });

    /// <summary>A connection is at its end.</summary>
    public void Leave(IPhoneLink link) => Do(() =>
    {
        if (ReferenceEquals(_current, link))
        {
            _current = null;
            _watch.Left(_stopped ? PhoneWatch.Stopped : PhoneWatch.Lost);
            _stopped = false;
        }
    });

    private bool _stopped;

    /// <summary>Whether a connection is the one that counts.</summary>
    public bool IsCurrent(IPhoneLink link) => Locked(() => ReferenceEquals(_current, link));

    /// <summary>Takes messages of the paired phone that come without a socket.</summary>
    /// <returns>False when they are too many.</returns>
    public bool TakeLoose(PhoneMessage message)
    {
        bool well = true;
        Do(() =>
        {
            if (Allowance.Take())
            {
                Take(message);
            }

            well = !Allowance.IsFlood;
        });
        return well;
    }

    /// <summary>Takes one message of a connection, if that still counts.</summary>
    public void Take(IPhoneLink link, PhoneMessage message) => Do(() =>
    {
        if (ReferenceEquals(_current, link))
        {
            Take(message);
        }
    });

    /// <summary>Something came that was not understood.</summary>
    public void Refuse(string reason) => Do(() => _news.Enqueue(() => _listener.Refused(reason)));

    /// <summary>The server cannot go on.</summary>
    public void Fail(string why) => Do(() => _watch.Failed(why));

    /// <summary>Ends the connection that counts.</summary>
    public void EndAll() => Do(() =>
    {
        if (_current is { } last)
        {
            _current = null;
            _news.Enqueue(() => last.End(PhoneClosing.Going));
        }
    });

    public void Dispose() => _timer.Dispose();

    private void Take(PhoneMessage message)
    {
        _watch.Heard();
        switch (message)
        {
            case PhoneMessage.Turned turned:
                Turn(turned);
                break;
            case PhoneMessage.Visibility { IsHidden: var hidden }:
                _watch.Hidden(hidden);
                _orientation.Forget();
                break;
            case PhoneMessage.Sensor { Trouble: var trouble }:
                _watch.Blind(trouble);
                break;
            case PhoneMessage.Press press when !IsRepeat(press):
                _pressed = (press, _time.GetTimestamp());
                _news.Enqueue(() => _listener.Pressed(press.Button));
                break;
            case PhoneMessage.Drawn { Number: var number }:
                Timings.Drawn(number, _time);
                break;
            case PhoneMessage.Bye:
                _stopped = true;
                break;
        }
    }

    private void Turn(PhoneMessage.Turned turned)
    {
        string? problem = _orientation.Take(turned, out Core.Sensing.SensorSample sample, out TimeSpan age);
        if (problem is null)
        {
            _watch.Turned();
            _news.Enqueue(() => _listener.Turned(sample, age));
        }
        else if (problem.Length > 0)
        {
            _news.Enqueue(() => _listener.Refused(problem));
        }
    }

    private bool IsRepeat(PhoneMessage.Press press) => _pressed is { } last && last.Press == press && _time.GetElapsedTime(last.At) < Repeats;

    private T Locked<T>(Func<T> read)
    {
        lock (_gate)
        {
            return read();
        }
    }

    /// <summary>Changes the state under the lock, then hands on what is new, in order and by one thread at a time.</summary>
    private void Do(Action change)
    {
        lock (_gate)
        {
            change();
            TellState();
            if (_handingOn)
            {
                return;
            }

            _handingOn = true;
        }

        bool whole = false;
        try
        {
            while (NextNews() is { } tell)
            {
                tell();
            }

            whole = true;
        }
        finally
        {
            if (!whole)
            {
                lock (_gate)
                {
                    _handingOn = false;
                }
            }
        }
    }

    private Action? NextNews()
    {
        lock (_gate)
        {
            _handingOn = _news.TryDequeue(out Action? tell);
            return tell;
        }
    }

    private void TellState()
    {
        (PhoneState State, string Words) now = _watch.Now();
        if (_told != now)
        {
            _told = now;
            _news.Enqueue(() => _listener.Changed(now.State, now.Words));
        }

        if (_pairing.Wrong != _wrong.Told && !(_wrong.At is { } at && _time.GetElapsedTime(at) < WrongEvery))
        {
            int count = _pairing.Wrong;
            _wrong = (count, _time.GetTimestamp());
            _news.Enqueue(() => _listener.TurnedAway(count));
        }
    }
}
