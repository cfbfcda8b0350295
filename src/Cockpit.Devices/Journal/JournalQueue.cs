using Cockpit.Session.Events;

namespace Cockpit.Devices.Journal;

/// <summary>Events that wait for the disk; bounded: when it is full the oldest go, and are counted.</summary>
/// <param name="capacity">Most events that wait.</param>
internal sealed class JournalQueue(int capacity)
{
    private readonly Lock _gate = new();
    private readonly Queue<Envelope> _waiting = new();
    private long _dropped;

    internal bool IsEmpty
    {
        get
        {
            lock (_gate)
            {
                return _waiting.Count == 0;
            }
        }
    }

    internal void Add(Envelope envelope)
    {
        lock (_gate)
        {
            if (_waiting.Count == capacity)
            {
                _waiting.Dequeue();
                _dropped++;
            }

            _waiting.Enqueue(envelope);
        }
    }

    internal bool TryTake([System.Diagnostics.CodeAnalysis.NotNullWhen(true)] out Envelope? envelope)
    {
        lock (_gate)
        {
            return _waiting.TryDequeue(out envelope);
        }
    }

    /// <summary>Events lost since the last call.</summary>
    internal long TakeDropped()
    {
        lock (_gate)
        {
            long dropped = _dropped;
            _dropped = 0;
            return dropped;
        }
    }
}
