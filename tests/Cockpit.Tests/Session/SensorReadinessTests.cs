using System.Globalization;
using Cockpit.Core.Geo;
using Cockpit.Core.Sensing;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;
using Cockpit.Session.Bus;
using Cockpit.Session.Events;
using Cockpit.Session.Handset;
using Cockpit.Session.Pipeline;
using Cockpit.Session.State;
using Cockpit.Wiring;

namespace Cockpit.Tests.Session;

/// <summary>Before the pass the dish is pointed at something of known direction, and the sensor on it learns how far it is off.</summary>
public sealed class SensorReadinessTests
{
    private static readonly DateTimeOffset Start = ReadinessTests.Start;

    private static readonly SessionSettings Settings = ReadinessTests.Settings with
    {
        Landmarks = [new Landmark("mast", new Site(Angle.FromDegrees(47.81), Angle.FromDegrees(11.19), 700), HasHeight: true), new Landmark("gate", new Site(Angle.FromDegrees(47.8005), Angle.FromDegrees(11.2), 0), HasHeight: false)],
        Feeds = [FeedSettings.Signal, new FeedSettings(Sources.Pointing, FeedRole.Pointing)],
    };

    private readonly Fold _fold = new();
    private long _sequence;
    private Snapshot? _now;

    [Fact]
    public void A_sensor_is_open_until_it_speaks_and_red_when_it_falls_asleep()
    {
        Happens(0, new SessionOpened(Settings));
        Assert.Equal((ReadinessState.Open, "nothing came from it yet"), (Sensor.State, Sensor.Found));
        Says(1, 200, 10);
        Assert.Equal((ReadinessState.Open, "nobody knows yet how far it is off"), (Sensor.State, Sensor.Found));
        Happens(8, new Ticked());
        Assert.Equal((ReadinessState.Red, "silent for 7 s"), (Sensor.State, Sensor.Found));
        Assert.Null(_now!.Readiness!.Directions);
    }

    [Fact]
    public void What_can_be_seen_is_offered_with_its_direction_and_one_key_goes_through_it()
    {
        Happens(0, new SessionOpened(Settings));
        Says(1, 200, 10);
        DirectionsNow first = _now!.Readiness!.Directions!;
        Bearings sky = Bearings.At(Settings.Station, _now.Utc);

        // The gate stands nearer than 200 m: a step aside would turn its bearing.
        Assert.DoesNotContain(first.All, offer => offer.What == "gate");
        Assert.Equal("the sun", first.Chosen.What);
        Assert.Equal(sky.Sun.Azimuth.Degrees, first.Chosen.Azimuth.Degrees, 9);
        DirectionOffer mast = first.All.Single(offer => offer.What == "mast");
        Geodesic line = Geodesic.Between(Settings.Station, Settings.Landmarks[0].Site);
        Assert.Equal(line.Azimuth.Degrees, mast.Azimuth.Degrees, 9);
        Assert.Equal(Math.Atan2(180.0, line.DistanceMetres) * 180.0 / Math.PI, mast.Elevation!.Value.Degrees, 9);
        Assert.Contains(string.Create(CultureInfo.InvariantCulture, $"point at the sun (az {sky.Sun.Azimuth.Degrees:000} el {sky.Sun.Elevation.Degrees:0}), then D; G: another"), Sensor.ToDo, StringComparison.Ordinal);
        for (int i = 0; i < first.All.Length; i++)
        {
            Happens(2 + i, new OperatorPressed(OperatorKey.AnotherDirection));
            Says(2 + i, 200, 10);
            Assert.Equal(first.All[(i + 1) % first.All.Length].What, _now.Readiness!.Directions!.Chosen.What);
        }
    }

    [Fact]
    public void Pointed_at_the_sun_the_sensor_knows_how_far_it_is_off()
    {
        Happens(0, new SessionOpened(Settings));
        Says(1, 0, 0);
        DirectionOffer sun = _now!.Readiness!.Directions!.Chosen;
        HandsetGuidance asked = HandsetComputer.Derive(HandsetMemory.Empty, _now, DeviceAxis.Camera);
        Assert.Equal(("POINT", "point the dish at the sun, then HERE"), (asked.Word, asked.Note));
        Assert.Equal("here", Assert.Single(asked.Buttons));
        for (int i = 0; i < 10; i++)
        {
            Says(2 + (0.1 * i), sun.Azimuth.Degrees + 24.0, sun.Elevation!.Value.Degrees + 2.0);
        }

        Desk(Happens(3, new OperatorPressed(OperatorKey.OnDirection)));
        Assert.Equal("taken: the dish points at the sun", _answer!.Words);
        Says(3.1, sun.Azimuth.Degrees + 24.0, sun.Elevation!.Value.Degrees + 2.0);
        Assert.Equal(24.0, _now.Sensor!.Bias!.Value.Degrees, 1.5);
        Assert.Equal(ReadinessState.Green, Sensor.State);
        HandsetGuidance known = HandsetComputer.Derive(HandsetMemory.Empty, _now, DeviceAxis.Camera);
        Assert.Equal("WAIT", known.Word);
        Assert.Empty(known.Buttons);
    }

    [Theory]
    [InlineData(OperatorKey.OnDirection)]
    [InlineData(OperatorKey.AnotherDirection)]
    public void Without_a_sensor_that_is_awake_the_keys_say_why_they_do_nothing(OperatorKey key)
    {
        Happens(0, new SessionOpened(Settings));
        Happens(1, new OperatorPressed(key));
        Assert.Equal((false, "there is no sensor on the dish that could learn from it"), (_answer!.Taken, _answer.Words));
        Says(2, 200, 10);
        Happens(9, new OperatorPressed(key));
        Assert.Equal((false, "the sensor is silent: nothing to learn from"), (_answer.Taken, _answer.Words));
        Happens((_now!.Sky!.Pass.Aos.Utc - Start).TotalSeconds + 1, new OperatorPressed(key));
        Assert.Equal((false, "that is for before the pass; now P says that the dish is on the satellite"), (_answer.Taken, _answer.Words));
    }

    private ReadinessItem Sensor => _now!.Readiness!.Items.Single(item => item.Topic == ReadinessTopic.Sensor);

    private KeyAnswer? _answer;

    private void Says(double seconds, double azimuth, double elevation) => Happens(seconds, new PointingMeasured(
        Sources.Pointing, new SensorSample { Azimuth = Angle.FromDegrees(azimuth).WrappedToTurn(), Elevation = Angle.FromDegrees(elevation), North = SensorNorth.True }));

    /// <summary>What the program makes of the key that was pressed.</summary>
    private void Desk(Envelope pressed)
    {
        Collected collected = new();
        DirectionDesk desk = new(collected);
        desk.Follow(_now!);
        desk.Happened(pressed);
        Happens(pressed.Elapsed.TotalSeconds, Assert.Single(collected.Events));
    }

    private Envelope Happens(double seconds, SessionEvent happened)
    {
        Envelope envelope = new(++_sequence, TimeSpan.FromSeconds(seconds), Start.AddSeconds(seconds), Sources.Program, happened);
        _now = _fold.Step(envelope);
        _answer = _now.Answer ?? _answer;
        return envelope;
    }

    private sealed class Collected : IEventSink
    {
        public List<SessionEvent> Events { get; } = [];

        public void Publish(string source, SessionEvent happened) => Events.Add(happened);
    }
}
