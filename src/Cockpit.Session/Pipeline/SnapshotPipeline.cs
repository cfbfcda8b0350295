using System.Reactive.Concurrency;
using System.Reactive.Disposables;
using System.Reactive.Linq;
using Cockpit.Session.Bus;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Session.Pipeline;

/// <summary>Joins bus and fold: envelopes in, one snapshot for each out to every observer, on one thread.</summary>
public sealed class SnapshotPipeline : IDisposable
{
    private readonly Fold _fold = new();
    private readonly HashSet<string> _failed = new(StringComparer.Ordinal);
    private readonly IEventSink _sink;
    private readonly IReadOnlyList<(string Part, Action<Snapshot> Show)> _observers;
    private readonly CompositeDisposable _owned;

    /// <summary>Starts folding.</summary>
    /// <param name="bus">Where the envelopes come from.</param>
    /// <param name="sink">Where a failure is told.</param>
    /// <param name="scheduler">The one thread that owns the fold; an immediate scheduler in tests.</param>
    /// <param name="observers">Named parts that get each snapshot, in order; they must be quick.</param>
    public SnapshotPipeline(
        IObservable<Envelope> bus,
        IEventSink sink,
        IScheduler scheduler,
        IReadOnlyList<(string Part, Action<Snapshot> Show)> observers)
    {
        _sink = sink;
        _observers = observers;
        _owned = new CompositeDisposable(bus.ObserveOn(scheduler).Subscribe(Step));
    }

    /// <inheritdoc/>
    public void Dispose() => _owned.Dispose();

    private void Step(Envelope envelope)
    {
        Snapshot? snapshot = null;
        Guarded("computation", () => snapshot = _fold.Step(envelope));
        if (snapshot is null)
        {
            return;
        }

        foreach ((string part, Action<Snapshot> show) in _observers)
        {
            Guarded(part, () => show(snapshot));
        }
    }

    private void Guarded(string part, Action action)
    {
        try
        {
            action();
        }
#pragma warning disable CA1031 // One failing part must not end the pass: it is said once, and tried again with the next event.
        catch (Exception failure)
#pragma warning restore CA1031
        {
            if (_failed.Add(part))
            {
                _sink.Publish(Sources.Program, new PartFailed(part, failure.Message));
            }
        }
    }
}
