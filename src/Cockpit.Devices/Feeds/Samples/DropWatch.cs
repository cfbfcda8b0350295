namespace Cockpit.Devices.Feeds.Samples;

/// <summary>Watches for samples that were left out because they came faster than they can be measured, or were cut on their way.</summary>
/// <param name="time">What it goes by.</param>
internal sealed class DropWatch(TimeProvider time)
{
    private static readonly TimeSpan Stands = TimeSpan.FromSeconds(5);

    private long? _droppedAt;

    /// <summary>What is wrong, for people; null when nothing was in the last seconds.</summary>
    public string? Remark => _droppedAt is { } at && time.GetElapsedTime(at) < Stands
        ? "samples are left out: they come faster than this computer measures them, or broken"
        : null;

    /// <summary>Samples came.</summary>
    /// <param name="missing">How many are missing before them; less than 0 where a new connection began.</param>
    public void Came(long missing) => _droppedAt = missing > 0 ? time.GetTimestamp() : _droppedAt;
}
