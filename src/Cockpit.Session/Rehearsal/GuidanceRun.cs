using Cockpit.Core.Estimate;
using Cockpit.Session.Computers.Desk;
using Cockpit.Session.Computers.Pursuit;
using Cockpit.Session.Computers.Sky;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Session.Rehearsal;

/// <summary>The pursuit folded over events in virtual time, without elements, bus, screen and sound.</summary>
public sealed class GuidanceRun
{
    private readonly SkyMemory _sky;
    private readonly DateTimeOffset _opened;
    private PursuitMemory _memory = PursuitMemory.Empty;
    private long _sequence;

    /// <summary>Opens a run.</summary>
    /// <param name="sky">The pass.</param>
    /// <param name="settings">What the session is about.</param>
    /// <param name="start">First moment, UTC.</param>
    public GuidanceRun(SkyPlan sky, SessionSettings settings, DateTimeOffset start)
    {
        _sky = new SkyMemory(settings, sky);
        _opened = start;
        Snapshot = Fold(start, Sources.Program, new SessionOpened(settings));
    }

    /// <summary>The moment after the last event; no feeds, no desk, no cues in it.</summary>
    public Snapshot Snapshot { get; private set; }

    /// <summary>The belief about the dish; null without a pass.</summary>
    public DishEstimate? Dish => _memory.Estimate.Dish;

    /// <summary>Folds one event.</summary>
    /// <param name="utc">When, not before the last.</param>
    /// <param name="source">Who publishes.</param>
    /// <param name="happened">What happened.</param>
    /// <returns>The moment after it.</returns>
    public Snapshot Fold(DateTimeOffset utc, string source, SessionEvent happened) => Fold(new Envelope(++_sequence, utc - _opened, utc, source, happened));

    /// <summary>Folds one event with a session time and a UTC of its own, as after a correction of the clock.</summary>
    /// <param name="envelope">The event.</param>
    /// <returns>The moment after it.</returns>
    public Snapshot Fold(Envelope envelope)
    {
        ArgumentNullException.ThrowIfNull(envelope);
        Scene scene = Scene.Of(_sky, envelope);
        _memory = PursuitComputer.Next(_memory, scene);
        PursuitNow now = PursuitComputer.Derive(_memory, scene);
        Snapshot = new Snapshot(
            envelope.Sequence,
            envelope.Utc,
            envelope.Elapsed,
            _sky.Settings,
            scene.Sky,
            now.Link,
            now.Aim,
            [],
            DeskComputer.Derive(DeskMemory.Empty),
            now.Notice,
            CuePlan.Silence);
        return Snapshot;
    }
}
