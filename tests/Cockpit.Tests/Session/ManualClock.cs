using Cockpit.Session.Bus;

namespace Cockpit.Tests.Session;

/// <summary>A session clock that a test sets by hand.</summary>
public sealed class ManualClock : ISessionClock
{
    public TimeSpan Elapsed { get; set; }
}
