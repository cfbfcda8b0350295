using System.Collections.Immutable;
using Cockpit.Session.Computers;
using Cockpit.Session.Cues;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Session.Pipeline;

/// <summary>The state of a session as a fold over its events: one step for each envelope, one snapshot out.</summary>
/// <remarks>
/// Pure but for the memory it carries: the same envelopes give the same snapshots, bit for bit, live or in replay. A
/// <see cref="SessionOpened"/> starts afresh, so a player that jumps back plays from the first event again. Not safe for
/// two threads.
/// </remarks>
public sealed class Fold
{
    private static readonly SessionSettings Unopened = new()
    {
        ProgramVersion = "",
        Kind = "",
        StationName = "",
        Station = default,
        SatelliteName = "",
        Elements = "",
    };

    private SessionSettings? _settings;
    private SkyPlan? _plan;
    private ImmutableArray<FeedMemory> _feeds = [];
    private DeskNow _desk = DeskMemory.Fresh;
    private GuidanceMemory _guidance = GuidanceMemory.Empty;
    private MessageMemory _message = MessageMemory.Start;
    private CueMemory _cues = CueMemory.Start;

    /// <summary>Folds one event.</summary>
    /// <returns>The moment after it.</returns>
    public Snapshot Step(Envelope envelope)
    {
        ArgumentNullException.ThrowIfNull(envelope);
        if (envelope.Event is SessionOpened opened)
        {
            Open(opened.Settings, envelope);
        }

        _feeds = FeedMemory.Next(_feeds, envelope);
        _desk = DeskMemory.Next(_desk, envelope.Event);

        SkyNow? sky = _plan?.At(envelope.Utc);
        Guidance guidance = Guidance.Step(_guidance, _settings ?? Unopened, sky, _plan?.Track, envelope);
        _guidance = guidance.Memory;

        double speed = _settings?.Speed ?? 1.0;
        Snapshot draft = new(
            envelope.Sequence,
            envelope.Utc,
            envelope.Elapsed,
            _settings,
            sky,
            guidance.Link,
            guidance.Aim,
            [.. _feeds.Select(feed => feed.At(envelope.Elapsed, speed))],
            _desk,
            null,
            CuePlan.Silence);

        _message = MessageComputer.Next(_message, draft, _guidance.Aim.Notice, envelope);
        draft = draft with { Message = _message.Shown };
        (_cues, CuePlan plan) = CueComputer.Next(_cues, draft, envelope);
        return draft with { Cues = plan };
    }

    private void Open(SessionSettings settings, Envelope envelope)
    {
        _settings = settings;
        _plan = SkyPlan.For(settings, envelope.Utc);
        _feeds = FeedMemory.Opened(settings, envelope);
        _desk = DeskMemory.Fresh;
        _guidance = GuidanceMemory.Empty;
        _message = MessageMemory.Start;
        _cues = CueMemory.Start;
    }
}
