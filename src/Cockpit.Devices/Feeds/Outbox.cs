using Cockpit.Session.Bus;
using Cockpit.Session.Events;

namespace Cockpit.Devices.Feeds;

/// <summary>Facts on their way to the bus: put in under somebody's lock, handed on outside it, in the order they were put in.</summary>
/// <param name="source">Who publishes.</param>
/// <param name="sink">Where they go.</param>
internal sealed class Outbox(string source, IEventSink sink)
{
    private readonly Lock _gate = new();
    private readonly Queue<SessionEvent> _waiting = new();
    private bool _handingOn;

    internal void Put(SessionEvent fact)
    {
        lock (_gate)
        {
            _waiting.Enqueue(fact);
        }
    }

    /// <summary>Hands on all that waits; when another thread is at it already, that one does it.</summary>
    internal void HandOn()
    {
        lock (_gate)
        {
            if (_handingOn)
            {
                return;
            }

            _handingOn = true;
        }

        bool whole = false;
        try
        {
            while (Next() is { } fact)
            {
                sink.Publish(source, fact);
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

    /// <summary>The next one; with the last the work is given up in the same step, so that nothing is left lying.</summary>
    private SessionEvent? Next()
    {
        lock (_gate)
        {
            _handingOn = _waiting.TryDequeue(out SessionEvent? fact);
            return fact;
        }
    }
}
