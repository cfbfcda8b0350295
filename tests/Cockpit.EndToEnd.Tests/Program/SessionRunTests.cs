using Cockpit.Core.Geo;
using Cockpit.Core.Units;
using Cockpit.Devices.Feeds;
using Cockpit.Devices.Journal;
using Cockpit.Devices.Speakers;
using Cockpit.Session.Bus;
using Cockpit.Session.Events;
using Cockpit.Wiring;

namespace Cockpit.EndToEnd.Tests.Program;

public sealed class SessionRunTests : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("cockpit-run-");

    public void Dispose() => _folder.Delete(recursive: true);

    // Whatever was begun ends in order: the journal is whole on the disk, with a last event that says how it ended.
    [Fact]
    public async Task A_session_whose_start_throws_closes_its_journal_and_its_feeds()
    {
        BrokenFeed feed = new();
        await using LiveFeeds feeds = new();
        Assert.Null(feeds.Add(feed, FeedRole.Signal, "--signal"));
        SessionRun run = new(Plan(), TextWriter.Null, TextWriter.Null, feeds);
        InvalidOperationException thrown = await Assert.ThrowsAsync<InvalidOperationException>(() => run.RunAsync(CancellationToken.None));
        Assert.Equal("no start", thrown.Message);
        Assert.Equal(1, feed.Disposed);
        string session = Assert.Single(Directory.GetDirectories(_folder.FullName));
        Assert.True(Recording.ReadAll(session).Try(out Recording? recording, out _));
        Assert.Equal("ended by a failure", Assert.IsType<SessionClosed>(recording.Envelopes[^1].Event).Reason);
        Assert.Empty(recording.Notes);
    }

    [Fact]
    public async Task Two_feeds_of_one_session_cannot_have_the_same_name()
    {
        await using LiveFeeds feeds = new();
        Assert.Null(feeds.Add(new BrokenFeed(), FeedRole.Signal, "--signal"));
        Assert.Equal("--signal: there is already a feed 'signal'; give each its own name", feeds.Add(new BrokenFeed(), FeedRole.Other, "--signal")?.ToString());
    }

    [Fact]
    public void Any_number_of_sessions_of_one_second_have_folders_of_their_own()
    {
        DateTimeOffset start = new(2026, 11, 25, 10, 15, 0, TimeSpan.Zero);
        _folder.CreateSubdirectory("2026-11-25T101500Z-petrel-2");
        _folder.CreateSubdirectory("2026-11-25T101500Z-petrel-2-1000");
        _folder.CreateSubdirectory("2026-11-25T101500Z-petrel-2-b");
        Assert.Equal("2026-11-25T101500Z-petrel-2-1001", Path.GetFileName(SessionFolder.Create(_folder.FullName, start, "PETREL 2").Value?.Path));
        Assert.Equal("2026-11-25T101500Z-petrel-2-1002", Path.GetFileName(SessionFolder.Create(_folder.FullName, start, "PETREL 2").Value?.Path));
        Assert.Equal("2026-11-25T101500Z-fenheron-7", Path.GetFileName(SessionFolder.Create(_folder.FullName, start, "FENHERON 7").Value?.Path));
    }

    // A stop that is asked for before the lines take over (the terminal hung up a moment earlier) counts, and the first code wins.
    [Fact]
    public void A_front_that_was_stopped_before_it_runs_returns_at_once_with_the_first_code()
    {
        using PlainFront front = new(TextWriter.Null);
        Parallel.For(0, 4, _ => front.Stop(143));
        front.Stop(0);
        Assert.Equal(143, front.Run(null, CancellationToken.None));
    }

    private SessionPlan Plan() => new()
    {
        Settings = new SessionSettings
        {
            ProgramVersion = "test",
            Kind = SessionKind.Live,
            StationName = "Oakridge",
            Station = new Site(Angle.FromDegrees(51.5), Angle.FromDegrees(-0.125), 42),
            SatelliteName = "PETREL 2",
        },
        StartUtc = new DateTimeOffset(2026, 11, 25, 10, 15, 0, TimeSpan.Zero),
        SessionsFolder = _folder.FullName,
        Sound = new SoundChoice(SoundPlace.Off),
        Plain = true,
    };

    private sealed class BrokenFeed : IFeed
    {
        public string Name => "signal";

        public int Disposed { get; private set; }

        public void Open()
        {
        }

        public void Start(IEventSink sink, TimeProvider time) => throw new InvalidOperationException("no start");

        public ValueTask DisposeAsync()
        {
            Disposed++;
            return ValueTask.CompletedTask;
        }
    }
}
