using Cockpit.Session.Bus;
using Cockpit.Session.Events;

namespace Cockpit.Tests.Feeds;

/// <summary>Keeps what is published, and waits for what is still to come.</summary>
internal sealed class SeenEvents : IEventSink
{
    private readonly Lock _gate = new();
    private readonly List<SessionEvent> _events = [];

    public void Publish(string source, SessionEvent sessionEvent)
    {
        lock (_gate)
        {
            _events.Add(sessionEvent);
        }
    }

    /// <summary>All events of a kind so far.</summary>
    public T[] All<T>()
        where T : SessionEvent
    {
        lock (_gate)
        {
            return [.. _events.OfType<T>()];
        }
    }

    /// <summary>The first event of a kind, already there or still to come.</summary>
    public async Task<T> First<T>(Predicate<T> wanted, TimeSpan patience)
        where T : SessionEvent
    {
        for (long begun = TimeProvider.System.GetTimestamp(); TimeProvider.System.GetElapsedTime(begun) < patience;)
        {
            lock (_gate)
            {
                if (_events.OfType<T>().FirstOrDefault(e => wanted(e)) is { } found)
                {
                    return found;
                }
            }

            await Task.Delay(20);
        }

        throw new TimeoutException($"no such {typeof(T).Name} among {_events.Count} events");
    }
}
