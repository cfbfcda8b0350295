using Cockpit.Devices.Ports;
using Cockpit.Session.Bus;

namespace Cockpit.Devices.Feeds;

/// <summary>Brings facts from outside; it never ends by itself, whatever the other side does.</summary>
/// <remarks>
/// In two steps: opened before a session, so that what can never work is refused in time; started when the bus is there. A feed that
/// brings bytes through a port is a <see cref="PortFeed"/>.
/// </remarks>
public interface IFeed : IAsyncDisposable
{
    /// <summary>Its name, as in the settings; it is the source of its events too.</summary>
    string Name { get; }

    /// <summary>Takes what no other program can have at the same time; a server or a file that is not there yet is waited for later.</summary>
    /// <exception cref="PortException">It can never work; the message is one sentence for the person who gave the address.</exception>
    void Open();

    /// <summary>Begins, once, after <see cref="Open"/>; returns at once, and works on threads of the pool.</summary>
    /// <param name="sink">Where its events go.</param>
    /// <param name="time">What waiting goes by.</param>
    void Start(IEventSink sink, TimeProvider time);
}
