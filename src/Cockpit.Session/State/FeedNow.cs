using Cockpit.Session.Events;

namespace Cockpit.Session.State;

/// <summary>Health of one feed.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Role">What it is for.</param>
/// <param name="Where">Its address, for people.</param>
/// <param name="Health">In one word.</param>
/// <param name="SilentSince">UTC of its last good record, or of the session's start; null while it is fresh.</param>
/// <param name="Trouble">What is wrong, one sentence; null when all is well.</param>
/// <param name="Records">Good records so far.</param>
/// <param name="Rejected">Bad records so far.</param>
/// <param name="Remark">What wants attention about its good readings, one sentence; null where nothing does.</param>
/// <param name="Recording">How the recording does that it reads; null where it reads none.</param>
/// <param name="IsCutOff">It had brought records and is known to bring none now, though the last of them is still fresh.</param>
public sealed record FeedNow(
    string Name,
    FeedRole Role,
    string Where,
    FeedHealth Health,
    DateTimeOffset? SilentSince,
    string? Trouble,
    long Records,
    long Rejected,
    string? Remark = null,
    RecordingNow? Recording = null,
    bool IsCutOff = false);

/// <summary>How a recording does that is being written.</summary>
/// <param name="Bytes">Its length.</param>
/// <param name="BytesPerSecond">How fast it grew in the last seconds.</param>
/// <param name="StoodStill">How long it has not grown, real time.</param>
/// <param name="FreeBytes">What is free on its disk; null where unknown.</param>
/// <param name="MinutesLeft">How long the disk lasts at this rate, minutes; null where unknown.</param>
public sealed record RecordingNow(long Bytes, double BytesPerSecond, TimeSpan StoodStill, long? FreeBytes, double? MinutesLeft)
{
    /// <summary>A recorder may write in bursts: this long is no stop yet.</summary>
    public static readonly TimeSpan Patience = TimeSpan.FromSeconds(3);

    /// <summary>A disk with less is told.</summary>
    public const double FewMinutes = 3.0;

    /// <summary>Whether it grew and does not any more.</summary>
    public bool Stopped => StoodStill > Patience;

    /// <summary>Whether its disk is full soon.</summary>
    public bool DiskSoonFull => MinutesLeft < FewMinutes;
}

/// <summary>Health of a feed in one word.</summary>
public enum FeedHealth
{
    /// <summary>Not connected yet.</summary>
    Waiting = 0,

    /// <summary>Records come.</summary>
    Good = 1,

    /// <summary>No record for more than 2 s.</summary>
    Stale = 2,

    /// <summary>No record for more than 10 s, or the connection is lost.</summary>
    Absent = 3,

    /// <summary>Twenty bad records in a row.</summary>
    Unreadable = 4,
}
