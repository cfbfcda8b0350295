using Cockpit.Session.Computers;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Session.Rehearsal;

/// <summary>Radio side and aim folded over events in virtual time, without elements, bus, screen and sound.</summary>
public sealed class GuidanceRun
{
    private readonly SkyPlan _sky;
    private readonly SessionSettings _settings;
    private readonly DateTimeOffset _opened;
    private GuidanceMemory _memory = GuidanceMemory.Empty;
    private long _sequence;

    /// <summary>Opens a run.</summary>
    /// <param name="sky">The pass.</param>
    /// <param name="settings">What the session is about.</param>
    /// <param name="start">First moment, UTC.</param>
    public GuidanceRun(SkyPlan sky, SessionSettings settings, DateTimeOffset start)
    {
        _sky = sky;
        _settings = settings;
        _opened = start;
        Snapshot = Fold(start, Sources.Program, new SessionOpened(settings));
    }

    /// <summary>The moment after the last event; no feeds, no desk, no cues in it.</summary>
    public Snapshot Snapshot { get; private set; }

    /// <summary>What the guidance has to say; null when nothing.</summary>
    public Message? Notice => _memory.Aim.Notice;

    /// <summary>Folds one event.</summary>
    /// <param name="utc">When, not before the last.</param>
    /// <param name="source">Who publishes.</param>
    /// <param name="happened">What happened.</param>
    /// <returns>The moment after it.</returns>
    public Snapshot Fold(DateTimeOffset utc, string source, SessionEvent happened)
    {
        Envelope envelope = new(++_sequence, utc - _opened, utc, source, happened);
        SkyNow sky = _sky.At(utc);
        Guidance step = Guidance.Step(_memory, _settings, sky, _sky.Track, envelope);
        _memory = step.Memory;
        Snapshot = new Snapshot(_sequence, utc, envelope.Elapsed, _settings, sky, step.Link, step.Aim, [], DeskMemory.Fresh, Notice, CuePlan.Silence);
        return Snapshot;
    }
}
