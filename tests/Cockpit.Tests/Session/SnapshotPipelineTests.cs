using System.Reactive.Concurrency;
using Cockpit.Core.Geo;
using Cockpit.Session.Bus;
using Cockpit.Session.Events;
using Cockpit.Session.Pipeline;
using Cockpit.Session.State;

namespace Cockpit.Tests.Session;

public sealed class SnapshotPipelineTests
{
    [Fact]
    public void A_part_that_throws_is_named_once_and_shown_the_next_moment_too()
    {
        using SessionBus bus = new(new ManualClock(), new DateTimeOffset(2026, 11, 25, 10, 0, 0, TimeSpan.Zero));
        List<SessionEvent> happened = [];
        List<long> shown = [];
        int tries = 0;
        void ShowBadly(Snapshot snapshot)
        {
            tries++;
            throw new InvalidOperationException("cannot be painted");
        }

        using SnapshotPipeline pipeline = new(bus, bus, ImmediateScheduler.Instance,
        [
            new("screen", Shown: ShowBadly),
            new("others", e => happened.Add(e.Event), s => shown.Add(s.Sequence)),
        ]);
        bus.Publish("program", new SessionOpened(new SessionSettings
        {
            ProgramVersion = "test", Kind = SessionKind.Live, StationName = "", Station = default(Site), SatelliteName = "",
        }));
        bus.Publish("clock", new Ticked());
        Assert.Equal([new PartFailed("screen", "cannot be painted")], happened.OfType<PartFailed>());
        Assert.Equal([1L, 2L, 3L], shown);
        Assert.Equal(3, tries);
    }
}
