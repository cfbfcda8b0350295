using System.Collections.Immutable;
using Cockpit.Session.Events;

namespace Cockpit.Session.State;

/// <summary>What the fold remembers of one feed.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Role">What it is for.</param>
/// <param name="Where">Its address.</param>
/// <param name="Connected">Connected or listening.</param>
/// <param name="Trouble">The last thing that went wrong; null after a good record.</param>
/// <param name="LastGoodElapsed">Session time of the last good record, or of the session's start.</param>
/// <param name="LastGoodUtc">The same in UTC.</param>
/// <param name="Records">Good records.</param>
/// <param name="Rejected">Bad records.</param>
/// <param name="BadInARow">Bad records since the last good one.</param>
public sealed record FeedMemory(
    string Name,
    FeedRole Role,
    string Where,
    bool Connected,
    string? Trouble,
    TimeSpan LastGoodElapsed,
    DateTimeOffset LastGoodUtc,
    long Records,
    long Rejected,
    int BadInARow)
{
    /// <summary>A value older than this is stale.</summary>
    public static readonly TimeSpan StaleAfter = TimeSpan.FromSeconds(2);

    /// <summary>A value older than this is absent.</summary>
    public static readonly TimeSpan AbsentAfter = TimeSpan.FromSeconds(10);

    /// <summary>So many bad records in a row make a feed unreadable.</summary>
    public const int UnreadableAfter = 20;

    /// <summary>The feeds of a session that has just been opened.</summary>
    public static ImmutableArray<FeedMemory> Opened(SessionSettings settings, Envelope envelope) =>
        [.. settings.Feeds.Select(feed => new FeedMemory(feed.Name, feed.Role, "", false, null, envelope.Elapsed, envelope.Utc, 0, 0, 0))];

    /// <summary>Folds one event into the feeds.</summary>
    public static ImmutableArray<FeedMemory> Next(ImmutableArray<FeedMemory> feeds, Envelope envelope) => envelope.Event switch
    {
        FeedConnected e => Change(feeds, e.Feed, f => f with { Where = e.Where, Connected = true, Trouble = null }),
        FeedLost e => Change(feeds, e.Feed, f => f with { Connected = false, Trouble = e.Reason }),
        FeedLineRejected e => Change(feeds, e.Feed, f => f with { Trouble = e.Reason, Rejected = e.Total, BadInARow = e.InARow }),
        FeedReading e => Change(feeds, e.Feed, f => f with
        {
            Connected = true,
            Trouble = null,
            LastGoodElapsed = envelope.Elapsed,
            LastGoodUtc = envelope.Utc,
            Records = f.Records + 1,
            BadInARow = 0,
        }),
        _ => feeds,
    };

    /// <summary>The health of this feed at a moment.</summary>
    /// <param name="elapsed">Session time of the moment.</param>
    /// <param name="speed">Rate of session time; ages are judged in real time, because the sender lives in it.</param>
    public FeedNow At(TimeSpan elapsed, double speed)
    {
        TimeSpan age = (elapsed - LastGoodElapsed) / speed;
        FeedHealth health = this switch
        {
            { BadInARow: >= UnreadableAfter } => FeedHealth.Unreadable,
            _ when Records > 0 && age <= StaleAfter => FeedHealth.Good,
            { Connected: false, Records: > 0 } => FeedHealth.Absent,
            { Connected: false } => FeedHealth.Waiting,
            _ when age <= StaleAfter => FeedHealth.Waiting,
            _ when age <= AbsentAfter => FeedHealth.Stale,
            _ => FeedHealth.Absent,
        };
        return new FeedNow(Name, Role, Where, health, health == FeedHealth.Good ? null : LastGoodUtc, Trouble, Records, Rejected);
    }

    private static ImmutableArray<FeedMemory> Change(ImmutableArray<FeedMemory> feeds, string name, Func<FeedMemory, FeedMemory> change)
    {
        for (int i = 0; i < feeds.Length; i++)
        {
            if (string.Equals(feeds[i].Name, name, StringComparison.Ordinal))
            {
                return feeds.SetItem(i, change(feeds[i]));
            }
        }

        return feeds;
    }
}
