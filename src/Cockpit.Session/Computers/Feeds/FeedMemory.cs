using System.Collections.Immutable;
using Cockpit.Session.Events;

namespace Cockpit.Session.Computers.Feeds;

/// <summary>What the fold remembers of one feed.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Role">What it is for.</param>
/// <param name="Where">Its address.</param>
/// <param name="Connected">Connected or listening.</param>
/// <param name="Trouble">The last thing that went wrong; null after a good record.</param>
/// <param name="GoodAt">Session time of the last good record, or of the session's start.</param>
/// <param name="GoodUtc">The same in UTC, to be shown.</param>
/// <param name="Records">Good records.</param>
/// <param name="Rejected">Bad records.</param>
/// <param name="BadInARow">Bad records since the last good one.</param>
/// <param name="Remark">What wants attention about its good readings; null where nothing does.</param>
/// <param name="Recording">The last report on the recording that it reads; null where there is none.</param>
/// <param name="RecordingAt">Session time of that report.</param>
public sealed record FeedMemory(
    string Name,
    FeedRole Role,
    string Where,
    bool Connected,
    string? Trouble,
    TimeSpan GoodAt,
    DateTimeOffset GoodUtc,
    long Records,
    long Rejected,
    int BadInARow,
    string? Remark = null,
    RecordingWatched? Recording = null,
    TimeSpan? RecordingAt = null);

/// <summary>What the fold remembers of all feeds.</summary>
/// <param name="Feeds">The feeds of the session, in the order shown.</param>
public sealed record FeedsMemory(ImmutableArray<FeedMemory> Feeds)
{
    /// <summary>More feeds than this are not watched: each of them is looked at with every event.</summary>
    public const int MostFeeds = 64;

    /// <summary>No session yet.</summary>
    public static FeedsMemory Empty { get; } = new([]);

    /// <summary>The feeds of a session that has just been opened.</summary>
    public static FeedsMemory Opened(SessionSettings settings, Envelope envelope)
    {
        ArgumentNullException.ThrowIfNull(settings);
        ArgumentNullException.ThrowIfNull(envelope);
        return new([.. settings.Feeds.Take(MostFeeds).Select(feed => new FeedMemory(feed.Name, feed.Role, "", false, null, envelope.Elapsed, envelope.Utc, 0, 0, 0))]);
    }
}
