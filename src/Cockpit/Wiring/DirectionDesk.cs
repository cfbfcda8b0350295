using Cockpit.Session.Bus;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Wiring;

/// <summary>Makes a fact of the key "the dish points at it", whoever pressed it: which direction that was. Not safe for two threads but those of the two calls.</summary>
/// <param name="bus">Where the fact goes.</param>
internal sealed class DirectionDesk(IEventSink bus)
{
    private Snapshot? _latest;

    /// <summary>Remembers what is asked for.</summary>
    public void Follow(Snapshot snapshot) => Volatile.Write(ref _latest, snapshot);

    /// <summary>Answers the key.</summary>
    public void Happened(Envelope envelope)
    {
        if (envelope.Event is OperatorPressed { Key: OperatorKey.OnDirection } && Volatile.Read(ref _latest)?.Readiness?.Directions is { Chosen: var chosen })
        {
            bus.Publish(Sources.Program, new DirectionKnown(chosen.Azimuth, chosen.Elevation, chosen.Spread, chosen.What));
        }
    }
}
