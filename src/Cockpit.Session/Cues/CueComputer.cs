using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Session.Cues;

/// <summary>Decides what sounds: a step of the fold, called once for every event. Pure; reads no clock.</summary>
public static class CueComputer
{
    /// <summary>What sounds after an event.</summary>
    /// <param name="memory">What was remembered after the event before; <see cref="CueMemory.Start"/> before the first.</param>
    /// <param name="snapshot">The moment after the event, complete but for its cues.</param>
    /// <param name="envelope">The event.</param>
    /// <returns>What to remember, and what sounds now.</returns>
    public static (CueMemory Memory, CuePlan Plan) Next(CueMemory memory, Snapshot snapshot, Envelope envelope)
    {
        ArgumentNullException.ThrowIfNull(memory);
        ArgumentNullException.ThrowIfNull(snapshot);
        ArgumentNullException.ThrowIfNull(envelope);
        CueMoment moment = new(snapshot, envelope.Event);
        Floor floor = new(memory.Floor, moment);
        HoldClockMemory holdClock = HoldClock.Next(memory.HoldClock, moment, floor);
        CueMemory kept = memory with { Floor = floor.Memory, HoldClock = holdClock };
        return (kept, new CuePlan(floor.Started, null, snapshot.Desk.VolumeDb));
    }
}
