using Cockpit.Devices.Clocks;
using Cockpit.Session.Bus;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Wiring;

/// <summary>Lets a simulated pass answer each tick.</summary>
/// <param name="bus">Where its answers go.</param>
/// <param name="rehearse">The pass.</param>
internal sealed class Rehearser(SessionBus bus, Func<Snapshot, IEnumerable<SessionEvent>> rehearse)
{
    private TimeSpan _next;

    public void Follow(Snapshot snapshot)
    {
        if (snapshot.Elapsed < _next)
        {
            return;
        }

        _next = snapshot.Elapsed + (TickSource.Period * 0.9);
        foreach (SessionEvent happened in rehearse(snapshot))
        {
            bus.Publish(happened is OperatorPressed ? Sources.Keys : Sources.Rehearsal, happened);
        }
    }
}
