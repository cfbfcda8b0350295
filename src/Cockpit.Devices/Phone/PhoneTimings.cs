using System.Collections.Immutable;

namespace Cockpit.Devices.Phone;

/// <summary>How long it took from the sending of guidance until the page said that it had drawn it. Safe from several threads.</summary>
public sealed class PhoneTimings
{
    private const int Kept = 4096;
    private const int InFlight = 64;
    private readonly Lock _gate = new();
    private readonly (long Number, long At)[] _sent = new (long, long)[InFlight];
    private readonly List<TimeSpan> _drawn = [];

    /// <summary>The last of them, in the order drawn.</summary>
    public ImmutableArray<TimeSpan> SentToDrawn
    {
        get
        {
            lock (_gate)
            {
                return [.. _drawn];
            }
        }
    }

    internal void Sent(long number, TimeProvider time)
    {
        lock (_gate)
        {
            _sent[number % InFlight] = (number, time.GetTimestamp());
        }
    }

    internal void Drawn(long number, TimeProvider time)
    {
        lock (_gate)
        {
            (long sent, long at) = _sent[number % InFlight];
            if (sent == number && at != 0 && _drawn.Count < Kept)
            {
                _drawn.Add(time.GetElapsedTime(at));
                _sent[number % InFlight] = default;
            }
        }
    }
}
