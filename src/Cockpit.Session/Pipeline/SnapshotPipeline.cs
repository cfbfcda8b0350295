using System.Reactive.Concurrency;
using System.Reactive.Disposables;
using System.Reactive.Linq;
using Cockpit.Session.Bus;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Session.Pipeline;

/// <summary>Joins bus, fold and parts: each event to every part and to the fold, the snapshot after it to every part.</summary>
/// <remarks>What a part, or the fold itself, that throws means is the policy of <see cref="FanOut{T}"/>.</remarks>
public sealed class SnapshotPipeline : IDisposable
{
    private readonly Fold _fold = new();
    private readonly FanOut<Envelope> _computation;
    private readonly FanOut<Snapshot> _shown;
    private readonly CompositeDisposable _owned;

    /// <summary>Starts folding.</summary>
    /// <param name="bus">Where the events come from.</param>
    /// <param name="sink">Where a failure of the fold or of a part that is shown snapshots is told.</param>
    /// <param name="scheduler">The one thread that owns the fold; an immediate scheduler in tests.</param>
    /// <param name="parts">Who follows, in order.</param>
    public SnapshotPipeline(SessionBus bus, IEventSink sink, IScheduler scheduler, IReadOnlyList<SessionPart> parts)
    {
        _owned = [];
        _shown = new FanOut<Snapshot>(sink);
        _computation = new FanOut<Envelope>(sink);
        _owned.Add(_computation.Add("computation", envelope => _shown.Send(_fold.Step(envelope))));
        foreach (SessionPart part in parts)
        {
            Follow(bus, part);
        }

        _owned.Add(bus.ObserveOn(scheduler).Subscribe(_computation.Send));
    }

    /// <inheritdoc/>
    public void Dispose() => _owned.Dispose();

    private void Follow(SessionBus bus, SessionPart part)
    {
        if (part.Happened is { } happened)
        {
            _owned.Add(bus.Subscribe(part.Name, happened));
        }

        if (part.Shown is { } shown)
        {
            _owned.Add(_shown.Add(part.Name, shown));
        }
    }
}
