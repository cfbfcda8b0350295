using Cockpit.Session.Bus;
using Cockpit.Session.Events;

namespace Cockpit.Wiring;

/// <summary>Keeps what a feed publishes before the bus is there, so that a feed can be opened first and refused in time.</summary>
public sealed class DeferredSink : IEventSink
{
    private const int MostWaiting = 1000;
    private readonly Lock _gate = new();
    private readonly Queue<(string Source, SessionEvent Event)> _waiting = new();
    private IEventSink? _sink;

    /// <inheritdoc/>
    public void Publish(string source, SessionEvent sessionEvent)
    {
        lock (_gate)
        {
            if (_sink is null)
            {
                if (_waiting.Count < MostWaiting)
                {
                    _waiting.Enqueue((source, sessionEvent));
                }

                return;
            }
        }

        _sink.Publish(source, sessionEvent);
    }

    /// <summary>Hands on what has waited, and everything from now on.</summary>
    public void Connect(IEventSink sink)
    {
        lock (_gate)
        {
            while (_waiting.TryDequeue(out (string Source, SessionEvent Event) next))
            {
                sink.Publish(next.Source, next.Event);
            }

            _sink = sink;
        }
    }
}
