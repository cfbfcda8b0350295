using Cockpit.Session.Bus;

namespace Cockpit.Devices.Clocks;

/// <summary>Monotonic session time from a <see cref="TimeProvider"/>; a step of the system clock does not move it.</summary>
/// <param name="time">Where the monotonic time comes from.</param>
/// <param name="speed">Session seconds for each real second; 1 in the field.</param>
public sealed class SessionClock(TimeProvider time, double speed = 1.0) : ISessionClock
{
    private readonly long _start = time.GetTimestamp();

    /// <inheritdoc/>
    public TimeSpan Elapsed => time.GetElapsedTime(_start) * speed;
}
