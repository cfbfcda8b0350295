using System.Collections.Immutable;
using Cockpit.Core.Signal;
using Cockpit.Session.Computers.Feeds;
using Cockpit.Session.Events;
using Cockpit.Session.Pipeline;
using Cockpit.Session.State;
using Cockpit.Tests.Computers;

namespace Cockpit.Tests.Session;

/// <summary>A session with many events costs as many times one event, not its square; told by what is allocated, which no busy machine changes.</summary>
public sealed class LongSessionTests
{
    private const long PageOfBytes = 48_000;
    private static readonly DateTimeOffset Start = new(2026, 11, 26, 10, 0, 0, TimeSpan.Zero);

    [Theory]
    [InlineData("keys")]
    [InlineData("failures")]
    [InlineData("levels")]
    public void The_last_event_of_many_costs_what_the_first_did(string what)
    {
        Fold fold = new();
        SnapshotDigest digest = new();
        digest.Add(Step(fold, 0, new SessionOpened(VirtualPass.Settings)));
        _ = Cost(0);
        _ = Cost(1); // the strip of the last minute is full from here on
        long early = Cost(2);
        long late = 0;
        for (int block = 3; block <= 8; block++)
        {
            late = Cost(block);
        }

        Assert.True(late < (early * 1.3) + 20_000, $"500 events: {early} bytes at first, {late} at last");
        Assert.True(late / 500 < PageOfBytes, $"{late / 500} bytes for an event");

        long Cost(int block)
        {
            long before = GC.GetAllocatedBytesForCurrentThread();
            for (int i = 1; i <= 500; i++)
            {
                digest.Add(Step(fold, ((block * 500) + i) * 0.1, what switch
                {
                    "keys" => new OperatorPressed((OperatorKey)(i % 10)),
                    "failures" => new PartFailed($"part {block} {i}", "it fell"),
                    _ => new SignalMeasured("signal", new SignalSample { SnrDb = i % 9 }),
                }));
            }

            return GC.GetAllocatedBytesForCurrentThread() - before;
        }
    }

    [Fact]
    public void Of_twenty_thousand_feeds_the_first_are_watched_and_the_line_says_so()
    {
        ImmutableArray<FeedSettings> feeds = [.. Enumerable.Range(1, 20_000).Select(i => new FeedSettings($"feed {i}", FeedRole.Other))];
        Fold fold = new();
        Snapshot opened = Step(fold, 0, new SessionOpened(VirtualPass.Settings with { Feeds = feeds }));
        Assert.Equal(FeedsMemory.MostFeeds, opened.Feeds.Length);
        Assert.Equal("only the first 64 of 20000 feeds are watched", opened.Message!.Text);
        Assert.Equal(FeedHealth.Good, Step(fold, 1, new SignalMeasured("feed 7", new SignalSample { SnrDb = 1 })).Feeds[6].Health);
        Assert.Equal(64, Step(fold, 2, new SignalMeasured("feed 9000", new SignalSample { SnrDb = 1 })).Feeds.Length);
    }

    [Fact]
    public void A_fingerprint_depends_on_what_is_shown_and_not_on_which_objects_show_it()
    {
        Snapshot moment = Screen.Moment.At(100);
        Snapshot same = Screen.Moment.At(100);
        Assert.Equal(Print(moment, same), Print(moment, moment));
        Assert.NotEqual(Print(moment, same), Print(moment, same with { Link = same.Link with { History = same.Link.History.RemoveAt(3) } }));
        Assert.NotEqual(Print(moment, same), Print(moment, same with { Sky = same.Sky! with { Holds = same.Sky.Holds.RemoveAt(0) } }));
        Assert.NotEqual(Print(moment, same), Print(moment, same with { Sky = same.Sky! with { Track = same.Sky.Track.RemoveAt(0) } }));
        Assert.NotEqual(Print(moment, same), Print(moment, same with { Settings = same.Settings! with { StationName = "elsewhere" } }));
        Assert.NotEqual(Print(moment, same), Print(moment, same with { Aim = same.Aim with { PeakAsked = true } }));

        static string Print(params ReadOnlySpan<Snapshot> moments)
        {
            SnapshotDigest digest = new();
            foreach (Snapshot moment in moments)
            {
                digest.Add(moment);
            }

            return digest.Current();
        }
    }

    private static Snapshot Step(Fold fold, double seconds, SessionEvent happened) =>
        fold.Step(new Envelope(1, TimeSpan.FromSeconds(seconds), Start.AddSeconds(seconds), "test", happened));
}
