using System.Collections.Immutable;
using Cockpit.Session.Computers.Sky;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Session.Computers.Feeds;

/// <summary>Health of the feeds. Pure.</summary>
public static class FeedComputer
{
    /// <summary>So many bad records in a row make a feed unreadable.</summary>
    public const int UnreadableAfter = 20;

    /// <summary>Folds one event.</summary>
    /// <param name="memory">The memory before.</param>
    /// <param name="scene">The event and its moment.</param>
    public static FeedsMemory Next(FeedsMemory memory, Scene scene)
    {
        ArgumentNullException.ThrowIfNull(memory);
        ArgumentNullException.ThrowIfNull(scene);
        return scene.Envelope.Event switch
        {
            SessionOpened opened => FeedsMemory.Opened(opened.Settings, scene.Envelope),
            FeedConnected e => Change(memory, e.Feed, f => f with { Where = e.Where, Connected = true, Trouble = null }),
            FeedLost e => Change(memory, e.Feed, f => f with { Connected = false, Trouble = e.Reason }),
            FeedLineRejected e => Change(memory, e.Feed, f => f with { Trouble = e.Reason, Rejected = e.Total, BadInARow = e.InARow }),
            FeedRemarked e => Change(memory, e.Feed, f => f with { Remark = e.Remark }),
            RecordingWatched e => Change(memory, e.Feed, f => f with { Recording = e, RecordingAt = scene.Elapsed }),
            FeedReading e => Change(memory, e.Feed, f => f with
            {
                Connected = true,
                Trouble = null,
                GoodAt = scene.Elapsed,
                GoodUtc = scene.Utc,
                Records = f.Records + 1,
                BadInARow = 0,
            }),
            _ => memory,
        };
    }

    /// <summary>What screen and cues see.</summary>
    /// <param name="memory">The memory after the event.</param>
    /// <param name="scene">The event and its moment.</param>
    public static ImmutableArray<FeedNow> Derive(FeedsMemory memory, Scene scene)
    {
        ArgumentNullException.ThrowIfNull(memory);
        ArgumentNullException.ThrowIfNull(scene);
        return [.. memory.Feeds.Select(feed => Derive(feed, scene))];
    }

    private static FeedNow Derive(FeedMemory feed, Scene scene)
    {
        Freshness freshness = Ages.Judge(scene.Age(feed.GoodAt) ?? TimeSpan.Zero);
        FeedHealth health = feed switch
        {
            { BadInARow: >= UnreadableAfter } => FeedHealth.Unreadable,
            { Records: > 0 } when freshness == Freshness.Fresh => FeedHealth.Good,
            { Connected: false, Records: > 0 } => FeedHealth.Absent,
            { Connected: false } => FeedHealth.Waiting,
            _ => freshness switch
            {
                Freshness.Fresh => FeedHealth.Waiting,
                Freshness.Stale => FeedHealth.Stale,
                _ => FeedHealth.Absent,
            },
        };
        bool cutOff = health == FeedHealth.Good && !feed.Connected;
        DateTimeOffset? since = health == FeedHealth.Good && !cutOff ? null : feed.GoodUtc;
        return new FeedNow(feed.Name, feed.Role, feed.Where, health, since, feed.Trouble, feed.Records, feed.Rejected, feed.Remark, RecordingOf(feed, scene), cutOff);
    }

    private static RecordingNow? RecordingOf(FeedMemory feed, Scene scene)
    {
        if (feed is not { Recording: { } seen, RecordingAt: { } at })
        {
            return null;
        }

        TimeSpan age = scene.Age(at) ?? TimeSpan.Zero;
        TimeSpan still = seen.StoodStill + age;
        double? minutes = seen is { FreeBytes: { } free, BytesPerSecond: > 0 } ? free / seen.BytesPerSecond / 60.0 : null;
        return new RecordingNow(seen.Bytes, seen.BytesPerSecond, still, seen.FreeBytes, minutes);
    }

    private static FeedsMemory Change(FeedsMemory memory, string name, Func<FeedMemory, FeedMemory> change)
    {
        for (int i = 0; i < memory.Feeds.Length; i++)
        {
            if (string.Equals(memory.Feeds[i].Name, name, StringComparison.Ordinal))
            {
                return new FeedsMemory(memory.Feeds.SetItem(i, change(memory.Feeds[i])));
            }
        }

        return memory;
    }
}
