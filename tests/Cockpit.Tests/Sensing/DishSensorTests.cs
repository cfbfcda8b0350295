using Cockpit.Core.Aim;
using Cockpit.Core.Geo;
using Cockpit.Core.Orbit;
using Cockpit.Core.Sensing;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;
using Cockpit.Session.Computers.Sky;
using Cockpit.Session.Events;
using Cockpit.Session.Pipeline;
using Cockpit.Session.Rehearsal;
using Cockpit.Session.State;

namespace Cockpit.Tests.Sensing;

/// <summary>What a session sees of a sensor on the dish.</summary>
public sealed class DishSensorTests
{
    private static readonly DateTimeOffset Start = new(2026, 11, 26, 10, 0, 0, TimeSpan.Zero);
    private readonly Fold _fold = new();
    private long _sequence;

    private static SessionSettings Settings(params FeedSettings[] feeds) => new()
    {
        ProgramVersion = "test",
        Kind = SessionKind.Live,
        StationName = "LOWLAND",
        Station = new Site(Angle.FromDegrees(47.8), Angle.FromDegrees(11.2), 520),
        SatelliteName = "PETREL 2",
        MagneticDeclination = Angle.FromDegrees(4),
        Feeds = [.. feeds],
    };

    [Fact]
    public void Magnetic_azimuths_become_true_and_those_from_true_north_stay()
    {
        _ = Step(0, new SessionOpened(Settings()));
        Assert.Equal(3.0, Step(1, Said(359, 30, SensorNorth.Magnetic)).Sensor!.Azimuth!.Value.Degrees, 9);
        Assert.Equal(3.0, Step(2, Said(359, 30, SensorNorth.Unknown)).Sensor!.Azimuth!.Value.Degrees, 9);
        Assert.Equal(359.0, Step(3, Said(359, 30, SensorNorth.True)).Sensor!.Azimuth!.Value.Degrees, 9);
    }

    [Fact]
    public void Heading_and_pitch_that_come_apart_are_put_together_and_each_grows_old_by_itself()
    {
        _ = Step(0, new SessionOpened(Settings()));
        Assert.True(Step(1.0, Said(null, 30, SensorNorth.Unknown)).Sensor!.IsInclinometer);
        SensorNow both = Step(1.5, Said(100, null, SensorNorth.True)).Sensor!;
        Assert.Equal((100.0, 30.0), (Math.Round(both.Azimuth!.Value.Degrees, 9), Math.Round(both.Elevation!.Value.Degrees, 9)));
        SensorNow later = Step(2.2, Said(101, null, SensorNorth.True)).Sensor!;
        Assert.Equal((101.0, true), (Math.Round(later.Azimuth!.Value.Degrees, 9), later.Elevation is null));
    }

    [Fact]
    public void A_sensor_asleep_is_stale_within_a_second_and_is_no_alarm()
    {
        _ = Step(0, new SessionOpened(Settings(new FeedSettings("pointing", FeedRole.Pointing))));
        for (int i = 0; i < 40; i++)
        {
            _ = Step(1 + (0.05 * i), Said(100, 30, SensorNorth.True));
        }

        SensorNow fresh = Step(3.0, new Ticked()).Sensor!;
        Assert.True(fresh.IsFresh);
        Assert.InRange(fresh.PerSecond, 19.0, 21.0);
        Snapshot asleep = Step(4.1, new Ticked());
        Assert.False(asleep.Sensor!.IsFresh);
        Assert.Null(asleep.Sensor.Azimuth);
        Assert.Null(asleep.Sensor.Elevation);
        Assert.Empty(asleep.Cues.Started);
    }

    // A whole simulated pass: the sensor on the simulated dish is twelve degrees off, and jumps by twenty in its middle.
    [Fact]
    public void What_the_signal_tells_of_the_dish_tells_how_far_the_sensor_is_off_and_a_jump_is_noticed()
    {
        Demo demo = Demo.Of(11, "test");
        SessionSettings settings = demo.Settings;
        SkyPlan plan = SkyPlan.For(settings, demo.StartUtc)!;
        DateTimeOffset start = plan.Pass.Aos.Utc.AddSeconds(-30);
        SimulatedPass simulated = new(new SatelliteTrack(new Sgp4(Demo.Elements), settings.Station), settings, HandSkill.Practised);
        Fold fold = new();
        long sequence = 0;
        Snapshot now = Happens(0, new SessionOpened(settings));
        Snapshot? atTheTop = null, jumped = null;
        TruthRecorded? truth = null;
        double top = (plan.Pass.Tca.Utc - start).TotalSeconds;
        double end = (plan.Pass.Los.Utc - start).TotalSeconds - 60;
        for (double at = 0.1; at < end; at += 0.1)
        {
            now = Happens(at, new Ticked());
            foreach (SessionEvent happened in simulated.Step(now))
            {
                now = Happens(at, happened);
                truth = happened as TruthRecorded ?? truth;
            }

            if (truth is not null)
            {
                double off = at < top ? 12.0 : 32.0;
                now = Happens(at, new PointingMeasured("pointing", new SensorSample((truth.Azimuth + Angle.FromDegrees(off)).WrappedToTurn(), truth.Elevation, null, SensorNorth.True)));
            }

            atTheTop = at < top - 1 ? now : atTheTop;
            jumped ??= at > top + 0.5 ? now : null;
        }

        static double Across(Snapshot moment, double off) => (moment.Sensor!.Bias!.Value.Degrees - off) * moment.Sensor.Elevation!.Value.Cos();
        Assert.InRange(Across(atTheTop!, 12.0), -4.0, 4.0);
        Assert.InRange(atTheTop!.Sensor!.Doubt.Degrees, 0.1, 3.0);
        Assert.InRange(Across(jumped!, 32.0), -4.0, 4.0);
        Assert.Contains("jumped", jumped!.Message?.Text ?? "", StringComparison.Ordinal);
        Assert.Equal(SensorState.Trusted, now.Sensor!.State);
        Assert.Equal(PointingOrigin.Sensor, now.Aim.Dish!.Origin);
        Assert.InRange(Across(now, 32.0), -4.0, 4.0);

        Snapshot Happens(double seconds, SessionEvent happened) =>
            fold.Step(new Envelope(++sequence, TimeSpan.FromSeconds(seconds), start.AddSeconds(seconds), "test", happened));
    }

    private static PointingMeasured Said(double? azimuth, double? elevation, SensorNorth north) => new("pointing", new SensorSample(
        azimuth is { } a ? Angle.FromDegrees(a) : null, elevation is { } e ? Angle.FromDegrees(e) : null, null, north));

    private Snapshot Step(double seconds, SessionEvent happened) =>
        _fold.Step(new Envelope(++_sequence, TimeSpan.FromSeconds(seconds), Start.AddSeconds(seconds), "test", happened));
}
