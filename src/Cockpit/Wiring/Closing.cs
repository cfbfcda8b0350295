using System.Globalization;
using Cockpit.Session.Bus;
using Cockpit.Session.Events;
using Cockpit.Session.Pipeline;
using Cockpit.Session.State;

namespace Cockpit.Wiring;

/// <summary>Ends a session in order: publishes the last event and waits until the fold has taken it, so that digest and screen end where the journal ends.</summary>
/// <param name="bus">The order that ends.</param>
internal sealed class Closing(SessionBus bus) : IAsyncDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(10);
    private readonly TaskCompletionSource _done = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private long _last = long.MaxValue;

    /// <summary>The exit code; null when the session does not come to one.</summary>
    public int? Code { get; set; }

    /// <summary>The operator chose another pass.</summary>
    public bool Left { get; set; }

    /// <summary>Takes each event before all others do.</summary>
    public SessionPart First => new("closing", Happened: Published);

    /// <summary>Takes each snapshot after all others have: what they show and add up is complete then.</summary>
    public SessionPart Last => new("closed", Shown: Folded);

    public async ValueTask DisposeAsync()
    {
        bus.PublishLast(Sources.Program, new SessionClosed(Code switch
        {
            0 when Left => "left for another pass",
            0 => "left by the operator",
            { } code => string.Create(CultureInfo.InvariantCulture, $"ended with code {code}"),
            null => "ended by a failure",
        }));
        await Task.WhenAny(_done.Task, Task.Delay(Patience, TimeProvider.System, CancellationToken.None));
    }

    private void Published(Envelope envelope)
    {
        if (envelope.Event is SessionClosed)
        {
            Interlocked.Exchange(ref _last, envelope.Sequence);
        }
    }

    private void Folded(Snapshot snapshot)
    {
        if (snapshot.Sequence >= Interlocked.Read(ref _last))
        {
            _done.TrySetResult();
        }
    }
}
