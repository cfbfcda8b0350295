using Cockpit.Session.Events;

namespace Cockpit.Devices.Journal;

/// <summary>Events that wait for the disk; bounded: when it is full the oldest go, and are counted.</summary>
/// <param name="capacity">Most events that wait.</param>
internal sealed class JournalQueue(int capacity)
{
    private readonly Lock _gate = new();
    private readonly Queue<Envelope> _waiting = new();
    private long _dropped;
    private long _droppedInAll;
    private long _pending;

    /// <summary>Events given that are neither dropped nor finished with.</summary>
    internal long Pending
    {
        get
        {
            lock (_gate)
            {
                return _pending;
            }
        }
    }

    /// <summary>Events lost since the start.</summary>
    internal long Dropped
    {
        get
        {
            lock (_gate)
            {
                return _droppedInAll;
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
                _droppedInAll++;
                _pending--;
            }

            _waiting.Enqueue(envelope);
            _pending++;
        }
    }

    internal bool TryTake([System.Diagnostics.CodeAnalysis.NotNullWhen(true)] out Envelope? envelope)
    {
        lock (_gate)
        {
            return _waiting.TryDequeue(out envelope);
        }
    }

    /// <summary>So many of the events that were taken are finished with.</summary>
    internal void Finish(int count)
    {
        lock (_gate)
        {
            _pending -= count;
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
