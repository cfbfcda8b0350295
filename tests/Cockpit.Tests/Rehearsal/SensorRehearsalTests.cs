using Cockpit.Core.Aim;
using Cockpit.Core.Orbit;
using Cockpit.Core.Sensing;
using Cockpit.Core.Sky;
using Cockpit.Session.Computers.Sky;
using Cockpit.Session.Events;
using Cockpit.Session.Pipeline;
using Cockpit.Session.Rehearsal;
using Cockpit.Session.State;

namespace Cockpit.Tests.Rehearsal;

/// <summary>A rehearsed pass whose dish bears a sensor, from half a minute before it rises.</summary>
public sealed class SensorRehearsalTests
{
    private const double Seconds = 200.0;

    [Fact]
    public void The_dish_is_shown_as_it_moves_once_the_sensor_is_known_and_never_before()
    {
        (List<Envelope> _, List<Snapshot> shown) = Fly();
        Assert.All(shown, now => Assert.True(now.Aim.Dish is not { Origin: PointingOrigin.Sensor } dish || dish.Spread <= 0.2 * now.Aim.BeamWidth));
        Assert.Equal(SensorState.Trusted, shown[^1].Sensor!.State);
        Assert.Contains(shown, now => now.Message?.Text.StartsWith("the sensor knows where the dish points, to", StringComparison.Ordinal) == true);

        // At the sensor's own rate: it moves more often than the level's blocks of half a second.
        Snapshot[] late = [.. shown.Where(now => now.Aim.Dish is { Origin: PointingOrigin.Sensor })];
        int blocks = late.Select(now => now.Elapsed.TotalSeconds).Select(at => (int)(2.0 * at)).Distinct().Count();
        int places = late.Select(now => now.Aim.Dish!.Azimuth.Degrees).Distinct().Count();
        Assert.True(places > 1.1 * blocks, $"{places} places in {blocks} blocks");
    }

    [Fact]
    public void The_same_events_show_the_same_again_to_the_last_bit()
    {
        (List<Envelope> events, List<Snapshot> shown) = Fly();
        Assert.Contains(events, happened => happened.Event is PointingMeasured);
        SnapshotDigest live = new();
        shown.ForEach(live.Add);
        SnapshotDigest again = new();
        Fold fold = new();
        events.ForEach(happened => again.Add(fold.Step(happened)));
        Assert.Equal(live.Current(), again.Current());
    }

    private static (List<Envelope> Events, List<Snapshot> Shown) Fly()
    {
        Demo demo = Demo.Of(21, "test");
        SessionSettings settings = demo.Settings with { Feeds = [FeedSettings.Signal, FeedSettings.Pointing] };
        DateTimeOffset start = SkyPlan.For(settings, demo.StartUtc)!.Pass.Aos.Utc.AddSeconds(-60);
        SimulatedPass pass = new(new SatelliteTrack(new Sgp4(Demo.Elements), settings.Station), settings, HandSkill.Practised, sensor: new SensorWorld { NoiseDegrees = 0.1 });
        Fold fold = new();
        List<Envelope> events = [];
        List<Snapshot> shown = [];
        Happens(0, new SessionOpened(settings));
        for (double at = 0.1; at < Seconds; at += 0.1)
        {
            Happens(at, new Ticked());
            foreach (SessionEvent happened in pass.Step(shown[^1]))
            {
                Happens(at, happened);
            }
        }

        return (events, shown);

        void Happens(double seconds, SessionEvent happened)
        {
            events.Add(new Envelope(events.Count + 1, TimeSpan.FromSeconds(seconds), start.AddSeconds(seconds), Sources.Rehearsal, happened));
            shown.Add(fold.Step(events[^1]));
        }
    }
}
