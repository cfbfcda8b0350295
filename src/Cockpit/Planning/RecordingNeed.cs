namespace Cockpit.Planning;

/// <summary>What recordings need of a disk.</summary>
/// <param name="BytesPerSecond">Of the samples; null where their form or rate is not known.</param>
/// <param name="FreeBytes">What may still be written in the folder of the recordings; null where that is not known.</param>
/// <param name="LeastFree">So much of the disk is left alone.</param>
public sealed record RecordingNeed(double? BytesPerSecond, long? FreeBytes, long LeastFree)
{
    /// <summary>From the first samples before the rise to a little after the set.</summary>
    public static readonly TimeSpan Around = TimeSpan.FromMinutes(2);

    /// <summary>Bytes for a pass; null where nothing is known of the samples.</summary>
    /// <param name="duration">From rise to set.</param>
    public long? For(TimeSpan duration) => BytesPerSecond is { } rate ? (long)(rate * (duration + Around).TotalSeconds) : null;

    /// <summary>Whether it fits; null where one of the two is not known.</summary>
    /// <param name="duration">From rise to set.</param>
    public bool? Fits(TimeSpan duration) => For(duration) is { } need && FreeBytes is { } free ? free - need >= LeastFree : null;
}
