using Cockpit.Session.Events;

namespace Cockpit.Session.Bus;

/// <summary>Where facts are put in; safe from any thread.</summary>
public interface IEventSink
{
    /// <summary>Gives an event its number and time and hands it to everyone.</summary>
    /// <param name="source">Who publishes: a feed's name, "clock", "keys", "program".</param>
    /// <param name="sessionEvent">What happened.</param>
    void Publish(string source, SessionEvent sessionEvent);
}

/// <summary>Monotonic time of a session.</summary>
public interface ISessionClock
{
    /// <summary>Session time since the session was opened; never goes back.</summary>
    TimeSpan Elapsed { get; }
}
