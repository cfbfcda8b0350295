using System.Diagnostics;
using Cockpit.Core.Signal;
using Cockpit.Session.Bus;
using Cockpit.Session.Events;

namespace Cockpit.EndToEnd.Tests.Feeds;

/// <summary>Keeps the events of a feed and lets a test wait for one.</summary>
internal sealed class EventWait : IEventSink
{
    /// <summary>Long enough for a loaded machine; a test that passes never waits so long.</summary>
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(15);

    private readonly object _gate = new();
    private readonly List<SessionEvent> _events = [];
    private int _seen;

    public void Publish(string source, SessionEvent sessionEvent)
    {
        lock (_gate)
        {
            _events.Add(sessionEvent);
            Monitor.PulseAll(_gate);
        }
    }

    /// <summary>The next event of this type after the last one waited for; what comes between is passed over.</summary>
    public T Next<T>(Func<T, bool>? which = null)
        where T : SessionEvent
    {
        long start = Stopwatch.GetTimestamp();
        lock (_gate)
        {
            while (true)
            {
                for (; _seen < _events.Count; _seen++)
                {
                    if (_events[_seen] is T found && which?.Invoke(found) != false)
                    {
                        _seen++;
                        return found;
                    }
                }

                TimeSpan left = Patience - Stopwatch.GetElapsedTime(start);
                Assert.True(left > TimeSpan.Zero && Monitor.Wait(_gate, left), $"no {typeof(T).Name} came; there were: {string.Join("; ", _events)}");
            }
        }
    }

    /// <summary>Waits for a measurement of this level, dB.</summary>
    public void Level(double level) => Next<SignalMeasured>(measured => measured.Sample == new SignalSample { LevelDb = level });
}
