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
public sealed record FeedNow(string Name, FeedRole Role, string Where, FeedHealth Health, DateTimeOffset? SilentSince, string? Trouble, long Records, long Rejected);

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
