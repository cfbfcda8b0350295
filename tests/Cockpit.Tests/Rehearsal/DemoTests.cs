using Cockpit.Core.Orbit;
using Cockpit.Session.Events;
using Cockpit.Session.Pipeline;
using Cockpit.Session.Rehearsal;
using Cockpit.Session.State;

namespace Cockpit.Tests.Rehearsal;

public sealed class DemoTests
{
    [Fact]
    public void The_elements_of_the_demo_are_a_proper_element_set()
    {
        ElementSet elements = Assert.IsType<ElementSet>(Demo.Of(1, "test").Settings.Elements);
        Assert.Null(elements.Validate());
        Assert.Null(Sgp4.Validate(elements));
        Assert.Equal("PETREL 2", elements.Name);
    }

    [Fact]
    public void The_demo_opens_in_the_middle_and_the_hand_is_on_the_satellite_within_three_seconds()
    {
        Flight flight = Fly(seconds: 3);
        Snapshot last = flight.Snapshots[^1];
        Assert.InRange((flight.Snapshots[0].Utc - last.Sky!.Pass.Aos.Utc).TotalSeconds, 60, 90);
        Assert.InRange(last.Sky.Pass.Tca.Look.Elevation.Degrees, 60, 80);
        Assert.Contains(flight.Events, e => e is OperatorPressed { Key: OperatorKey.Peaked });
        Assert.NotNull(last.Aim.Dish);
        Assert.NotNull(last.Link.ExpectedDb);
        Assert.Contains(last.Aim.Word, new[] { AimWord.Hold, AimWord.Next });
        Assert.Equal(FeedHealth.Good, Assert.Single(last.Feeds).Health);
    }

    [Fact]
    public void The_hand_of_the_demo_is_set_up_by_its_mark_and_presses_nothing_that_was_not_called()
    {
        Flight flight = Fly(seconds: 8);
        Assert.DoesNotContain(flight.Snapshots, s => s.Aim.Word == AimWord.Move);
        Assert.Equal(OperatorKey.Peaked, Assert.Single(flight.Events.OfType<OperatorPressed>()).Key);
    }

    [Fact]
    public void In_the_demo_everything_moves_and_the_pass_ends()
    {
        Flight flight = Fly(seconds: 720);
        Assert.Equal(AimWord.Done, flight.Snapshots[^1].Aim.Word);
        Assert.Equal(PassPhase.Over, flight.Snapshots[^1].Sky!.Phase);

        AimWord[] words = [.. flight.Snapshots.Select(s => s.Aim.Word).Distinct()];
        Assert.Contains(AimWord.Hold, words);
        Assert.Contains(AimWord.Next, words);
        Assert.Contains(AimWord.Move, words);
        Assert.InRange(flight.Events.Count(e => e is OperatorPressed { Key: OperatorKey.Moved }), 5, 40);
        Assert.InRange(flight.Snapshots.Count(s => !s.Cues.Started.IsEmpty), 20, 400);

        // The lock comes and goes with the two obstructions.
        SignalMeasured[] signal = [.. flight.Events.OfType<SignalMeasured>()];
        Assert.Contains(signal, s => s.Sample.Locked == true);
        Assert.Contains(signal.Take(400).Skip(100), s => s.Sample.Locked == false);
        Assert.InRange(signal[^1].Sample.Frames!.Value, 3000, 4200);
    }

    [Fact]
    public void The_same_seed_gives_the_same_demo_and_another_seed_another()
    {
        Assert.Equal(Levels(1), Levels(1));
        Assert.NotEqual(Levels(1), Levels(2));

        static List<double?> Levels(ulong seed) => [.. Fly(20, seed).Events.OfType<SignalMeasured>().Select(s => s.Sample.SnrDb)];
    }

    [Fact]
    public void A_rehearsal_that_begins_before_the_rise_is_set_up_by_compass()
    {
        Demo demo = Demo.Of(3, "test");
        Flight flight = Fly(90, demo with { StartUtc = demo.StartUtc.AddSeconds(-135) });
        Assert.Contains(flight.Events, e => e is OperatorPressed { Key: OperatorKey.Moved });
        Assert.Equal(AimWord.Point, flight.Snapshots[100].Aim.Word);
        Assert.NotNull(flight.Snapshots[200].Aim.Dish);
        Assert.NotEqual(AimWord.Point, flight.Snapshots[^1].Aim.Word);
    }

    // Ten times as fast, a tick is a second of the session: one measurement a tick, and the pass goes on.
    [Fact]
    public void A_coarse_tick_is_caught_up()
    {
        Demo demo = Demo.Of(1, "test");
        Flight flight = Fly(60, demo with { Settings = demo.Settings with { Speed = 10 } }, tickSeconds: 1.0);
        Assert.Equal(60, flight.Events.Count(e => e is SignalMeasured));
        Assert.NotNull(flight.Snapshots[^1].Link.MeasuredDb);
    }

    private static Flight Fly(double seconds, ulong seed = 1) => Fly(seconds, Demo.Of(seed, "test"));

    private static Flight Fly(double seconds, Demo demo, double tickSeconds = 0.1)
    {
        Fold fold = new();
        SimulatedPass simulated = demo.Begin();
        Flight flight = new([], []);
        long sequence = 0;
        Snapshot snapshot = Step(TimeSpan.Zero, Sources.Program, new SessionOpened(demo.Settings));
        for (int i = 1; i <= (int)Math.Round(seconds / tickSeconds); i++)
        {
            TimeSpan at = TimeSpan.FromSeconds(i * tickSeconds);
            snapshot = Step(at, Sources.Clock, new Ticked());
            flight.Snapshots.Add(snapshot);
            foreach (SessionEvent happened in simulated.Step(snapshot))
            {
                flight.Events.Add(happened);
                Snapshot after = Step(at, Sources.Rehearsal, happened);
                if (!after.Cues.Started.IsEmpty)
                {
                    flight.Snapshots.Add(after);
                }
            }
        }

        return flight;

        Snapshot Step(TimeSpan at, string source, SessionEvent happened) =>
            fold.Step(new Envelope(++sequence, at, demo.StartUtc + at, source, happened));
    }

    private sealed record Flight(List<Snapshot> Snapshots, List<SessionEvent> Events);
}
