using Cockpit.Devices.Ports;
using Cockpit.Session.Bus;

namespace Cockpit.Devices.Feeds;

/// <summary>A feed behind a port: runs it, and runs it again whatever fails.</summary>
/// <param name="port">Not yet open; the feed owns it.</param>
/// <param name="name">Name of the feed.</param>
public abstract class PortFeed(IPort port, string name) : IFeed
{
    private static readonly TimeSpan AfterFailure = TimeSpan.FromSeconds(1);
    private static readonly TimeSpan ClosingPatience = TimeSpan.FromSeconds(2);

    private readonly CancellationTokenSource _stop = new();
    private FeedPublisher? _publisher;
    private Task _run = Task.CompletedTask;

    /// <inheritdoc/>
    public string Name => name;

    /// <summary>What was seen so far.</summary>
    public FeedCounts Counts => _publisher?.Counts ?? default;

    /// <inheritdoc/>
    public void Open() => port.Open();

    /// <inheritdoc/>
    public void Start(IEventSink sink, TimeProvider time)
    {
        _publisher = new FeedPublisher(name, sink, time);
        _run = RunAsync(_publisher, time, _stop.Token);
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        await _stop.CancelAsync();
        await Task.WhenAny(_run, Task.Delay(ClosingPatience, TimeProvider.System, CancellationToken.None));
        _publisher?.Dispose();
        port.Dispose();
        _stop.Dispose();
        GC.SuppressFinalize(this);
    }

    /// <summary>Makes what takes the bytes of the port; called once, at the start.</summary>
    /// <param name="publisher">Where to say what was found in them.</param>
    protected abstract IPortListener Listen(FeedPublisher publisher);

    private async Task RunAsync(FeedPublisher publisher, TimeProvider time, CancellationToken stop)
    {
        // A port may have much to read before it first waits; whoever starts the feed must not wait for that.
        await Task.CompletedTask.ConfigureAwait(ConfigureAwaitOptions.ForceYielding);
        IPortListener listener = Listen(publisher);
        while (!stop.IsCancellationRequested)
        {
            try
            {
                await port.RunAsync(listener, stop);
            }
            catch (OperationCanceledException) when (stop.IsCancellationRequested)
            {
                return;
            }
#pragma warning disable CA1031 // A feed's loop: whatever fails in it is told and tried again, the pass goes on.
            catch (Exception failure)
#pragma warning restore CA1031
            {
                publisher.Lost($"{port.Where} failed ({failure.Message}); it is tried again");
                await Task.Delay(AfterFailure, time, stop).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
            }
        }
    }
}
