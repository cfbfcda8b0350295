using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Session.Computers.Sky;

/// <summary>The first step of the fold: which pass the session is about, and where the satellite is. Pure.</summary>
public static class SkyComputer
{
    /// <summary>Folds one event: only the opening changes anything.</summary>
    /// <param name="memory">The memory before.</param>
    /// <param name="envelope">The event.</param>
    public static SkyMemory Next(SkyMemory memory, Envelope envelope)
    {
        ArgumentNullException.ThrowIfNull(envelope);
        return envelope.Event is SessionOpened opened
            ? new SkyMemory(opened.Settings, SkyPlan.For(opened.Settings, envelope.Utc))
            : memory;
    }

    /// <summary>The sky at the event; null without a pass.</summary>
    /// <param name="memory">The memory after the event.</param>
    /// <param name="envelope">The event.</param>
    public static SkyNow? Derive(SkyMemory memory, Envelope envelope)
    {
        ArgumentNullException.ThrowIfNull(memory);
        ArgumentNullException.ThrowIfNull(envelope);
        return memory.Plan?.At(envelope.Utc);
    }
}
