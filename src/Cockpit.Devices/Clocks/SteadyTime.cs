namespace Cockpit.Devices.Clocks;

/// <summary>This computer's clock as it was when it was made, going on by time that nobody sets: what a session's clock goes by.</summary>
/// <remarks>When the system sets its clock in mid-session, the session's is not set; it is the one that must be compared with better ones.</remarks>
/// <param name="time">The clock of the system.</param>
public sealed class SteadyTime(TimeProvider time) : TimeProvider
{
    private readonly DateTimeOffset _utc = time.GetUtcNow();
    private readonly long _start = time.GetTimestamp();

    /// <summary>When it was made.</summary>
    public DateTimeOffset Begun => _utc;

    /// <inheritdoc/>
    public override long TimestampFrequency => time.TimestampFrequency;

    /// <inheritdoc/>
    public override DateTimeOffset GetUtcNow() => _utc + time.GetElapsedTime(_start);

    /// <inheritdoc/>
    public override long GetTimestamp() => time.GetTimestamp();

    /// <inheritdoc/>
    public override ITimer CreateTimer(TimerCallback callback, object? state, TimeSpan dueTime, TimeSpan period) => time.CreateTimer(callback, state, dueTime, period);
}
