using Cockpit.Session.Bus;
using Cockpit.Session.Events;

namespace Cockpit.Devices.Clocks;

/// <summary>Publishes ten ticks a second of real time until it is disposed.</summary>
public sealed class TickSource : IAsyncDisposable
{
    /// <summary>Real time between ticks.</summary>
    public static readonly TimeSpan Period = TimeSpan.FromMilliseconds(100);

    private readonly CancellationTokenSource _stop = new();
    private readonly Task _run;

    /// <summary>Starts ticking.</summary>
    public TickSource(IEventSink sink, TimeProvider time)
    {
        _run = RunAsync(sink, time, _stop.Token);
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        await _stop.CancelAsync();
        await _run;
        _stop.Dispose();
    }

    private static async Task RunAsync(IEventSink sink, TimeProvider time, CancellationToken stop)
    {
        using PeriodicTimer timer = new(Period, time);
        try
        {
            while (await timer.WaitForNextTickAsync(stop))
            {
                sink.Publish(Sources.Clock, new Ticked());
            }
        }
        catch (OperationCanceledException) when (stop.IsCancellationRequested)
        {
            // The session ends: nothing is left to tick for.
        }
    }
}
