using Cockpit.Session.Bus;
using Cockpit.Session.Events;

namespace Cockpit.Tests.Feeds;

/// <summary>Keeps what is published.</summary>
internal sealed class RecordingSink : IEventSink
{
    private TaskCompletionSource _next = new(TaskCreationOptions.RunContinuationsAsynchronously);

    public List<SessionEvent> Events { get; } = [];

    /// <summary>Ends when the next event is there.</summary>
    public Task Next => _next.Task;

    public void Publish(string source, SessionEvent sessionEvent)
    {
        Assert.Equal("signal", source);
        Events.Add(sessionEvent);
        _next.TrySetResult();
    }

    /// <summary>What was published since the last call.</summary>
    public SessionEvent[] Take()
    {
        SessionEvent[] taken = [.. Events];
        Events.Clear();
        _next = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
        return taken;
    }
}
