using Cockpit.Core.Formats;
using Cockpit.Devices.Journal;
using Cockpit.Session.Bus;
using Cockpit.Session.Events;
using Cockpit.Session.Review;
using Cockpit.Session.State;

namespace Cockpit.Wiring;

/// <summary>Reviews the session once its pass is over, beside everything else, from what is on the disk by then.</summary>
/// <param name="folder">Folder of the session.</param>
/// <param name="show">Takes the review; on any thread.</param>
/// <param name="bus">Where a failure is told.</param>
/// <param name="time">What the waiting goes by.</param>
public sealed class LastPage(string folder, Action<SessionReview> show, IEventSink bus, TimeProvider time) : IAsyncDisposable
{
    /// <summary>The journal is on the disk a second after the event at the latest.</summary>
    private static readonly TimeSpan UntilWritten = TimeSpan.FromSeconds(1.5);

    private readonly CancellationTokenSource _left = new();
    private Task? _work;

    /// <summary>Takes the next moment.</summary>
    public void Follow(Snapshot snapshot)
    {
        if (snapshot.Sky?.Phase is PassPhase.Over && _work is null)
        {
            _work = ReviewAsync();
        }
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        await _left.CancelAsync();
        if (_work is { } work)
        {
            await work.ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        }

        _left.Dispose();
    }

    private async Task ReviewAsync()
    {
        try
        {
            await Task.Delay(UntilWritten, time, _left.Token).ConfigureAwait(false);
            if (Recording.ReadAll(folder).Try(out Recording? recording, out ParseError? error))
            {
                if (ReviewRecorder.Of(recording.Envelopes.TakeWhile(_ => !_left.IsCancellationRequested)) is { } review && !_left.IsCancellationRequested)
                {
                    show(review);
                }
            }
            else
            {
                bus.Publish(Sources.Program, new PartFailed("review", error.ToString()));
            }
        }
        catch (OperationCanceledException)
        {
            // The operator left before; the review is printed then.
        }
#pragma warning disable CA1031 // The pass is over and recorded; a review that fails takes nothing else with it, and is told.
        catch (Exception failure)
#pragma warning restore CA1031
        {
            bus.Publish(Sources.Program, new PartFailed("review", failure.Message.ReplaceLineEndings(" ")));
        }
    }
}
