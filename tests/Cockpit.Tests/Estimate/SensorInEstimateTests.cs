using Cockpit.Core.Estimate;
using Cockpit.Core.Sensing;
using CsCheck;

namespace Cockpit.Tests.Estimate;

/// <summary>What a sensor on the dish does to the belief: it tells moves, and in time the place too.</summary>
public sealed class SensorInEstimateTests
{
    private const double Width = 15.4;

    [Fact]
    public void A_sensor_whose_errors_nobody_knows_is_not_believed_before_the_level_told_them()
    {
        Sensed pass = new(seed: 31) { AzimuthError = 11.0, ElevationError = -3.0 };
        pass.Fly(-120.0, -100.0);
        Assert.Equal((SensorState.Learning, true), (pass.Estimate.Sensor, pass.Estimate.BySensor is null));
        pass.Fly(-100.0, 150.0);
        SensedPlace place = pass.Estimate.BySensor!.Value;
        Assert.Equal(SensorState.Trusted, pass.Estimate.Sensor);
        Assert.InRange(place.Spread, 0.1, 0.2 * Width);
        Assert.InRange(pass.OffSensed(), 0.0, 4.0);
    }

    [Fact]
    public void Whatever_its_errors_no_place_comes_from_a_sensor_that_is_known_worse_than_a_fifth_of_the_beam() =>
        Gen.Select(Gen.Double[-15.0, 15.0], Gen.Double[-4.0, 4.0], Gen.ULong[0, 1000]).Sample(
            (azimuth, elevation, seed) =>
            {
                Sensed pass = new(seed) { AzimuthError = azimuth, ElevationError = elevation };
                for (int i = -1000; i < 400; i++)
                {
                    pass.Step(i / 10.0);
                    Assert.True(pass.Estimate.BySensor is not { } place || place.Spread <= 0.2 * Width);
                }
            },
            iter: 6,
            threads: 1,
            seed: "0000KOIXlXz0");

    [Fact]
    public void A_direction_known_before_the_pass_makes_it_tell_where_the_dish_is()
    {
        Sensed pass = new(seed: 33) { AzimuthError = -13.0, ElevationError = 4.0 };
        pass.Fly(-220.0, -215.0);
        pass.Estimate.Seen(-215.0, pass.Azimuth + 1.0, pass.Elevation - 1.0, 1.5);
        pass.Fly(-215.0, -214.0);
        Assert.InRange(pass.OffSensed(), 0.0, 2.5);
        Assert.InRange(pass.Estimate.BySensor!.Value.Spread, 1.0, 2.5);

        // A hand turns it by thirty degrees: that is seen at once, before the pass as in it.
        for (int i = 0; i < 20; i++)
        {
            pass.Azimuth += 1.5;
            pass.Step(-214.0 + (i / 10.0));
        }

        pass.Fly(-212.0, -211.0);
        Assert.InRange(pass.OffSensed(), 0.0, 2.5);
    }

    [Fact]
    public void A_move_that_nobody_called_is_seen_within_half_a_second()
    {
        Sensed pass = new(seed: 34) { AzimuthError = 6.0 };
        pass.Fly(-120.0, 150.0);
        pass.Azimuth += 7.0;
        pass.Elevation += 3.0;
        pass.Fly(150.0, 150.5);
        Assert.InRange(pass.OffSensed(), 0.0, 4.0);
    }

    [Fact]
    public void A_compass_that_jumps_moves_the_sensor_not_the_dish() =>
        Gen.Select(Gen.Double[16.0, 170.0], Gen.Bool).Sample(
            (size, left) =>
            {
                Sensed pass = new(seed: 35) { AzimuthError = 5.0 };
                pass.Fly(-120.0, 100.0);
                double before = pass.OffSensed();
                pass.AzimuthError += left ? -size : size;
                pass.Fly(100.0, 101.0);
                Assert.Equal(100.0, pass.Estimate.SensorJumpedAt, 0.2);
                Assert.InRange(pass.OffSensed(), 0.0, before + 2.0);
            },
            iter: 4,
            threads: 1,
            seed: "0000KOIXlXz0");

    [Fact]
    public void Asleep_it_tells_nothing_and_awake_again_it_tells_where_the_dish_went()
    {
        Sensed pass = new(seed: 36) { AzimuthError = 9.0 };
        pass.Fly(-120.0, 120.0);
        pass.Asleep = true;
        pass.Fly(120.0, 121.0);
        Assert.Equal((SensorState.Asleep, true), (pass.Estimate.Sensor, pass.Estimate.BySensor is null));
        pass.Fly(121.0, 130.0);
        pass.Azimuth += 4.0;
        pass.Asleep = false;
        pass.Fly(130.0, 133.0);
        Assert.Equal(SensorState.Trusted, pass.Estimate.Sensor);
        Assert.InRange(pass.OffSensed(), 0.0, 5.0);
    }

    [Theory]
    [InlineData(-60.0, 70.0)]
    [InlineData(-60.0, 0.0)]
    [InlineData(30.0, 80.0)]
    public void A_sensor_that_hangs_or_is_turned_is_off_the_dish_at_once_and_the_belief_stays(double elevation, double roll)
    {
        Sensed pass = new(seed: 37) { AzimuthError = 9.0 };
        pass.Fly(-120.0, 120.0);
        pass.Hangs = (200.0, elevation, roll);
        pass.Fly(120.0, 121.0);
        Assert.Equal((SensorState.Off, true), (pass.Estimate.Sensor, pass.Estimate.BySensor is null));
        pass.Fly(121.0, 140.0);
        Assert.InRange(pass.OffBelief(), 0.0, 9.0);
    }

    [Fact]
    public void One_that_slips_without_looking_odd_is_found_out_by_the_level()
    {
        Sensed pass = new(seed: 38) { AzimuthError = 3.0 };
        pass.Fly(-120.0, 120.0);
        for (int i = 0; i < 20; i++)
        {
            // By three degrees in a tenth of a second both ways: no jump.
            pass.AzimuthError += 1.5;
            pass.ElevationError += 1.5;
            pass.Step(120.0 + (i / 10.0));
        }

        pass.Fly(122.0, 128.0);
        Assert.InRange(pass.OffBelief(), 0.0, 7.0);
    }

    [Fact]
    public void An_inclinometer_tells_the_height_and_leaves_the_azimuth_to_the_level()
    {
        Sensed pass = new(seed: 39) { ElevationOnly = true, ElevationError = 2.0 };
        pass.Fly(-120.0, 150.0);
        Assert.Null(pass.Estimate.BySensor);
        double before = pass.Estimate.Belief.Elevation;
        pass.Elevation += 6.0;
        pass.Fly(150.0, 151.0);
        Assert.InRange(pass.Estimate.Belief.Elevation - before, 4.0, 8.0);
    }

    [Fact]
    public void The_same_samples_give_the_same_belief_to_the_last_bit()
    {
        Sensed one = new(seed: 40) { AzimuthError = 8.0 };
        Sensed other = new(seed: 40) { AzimuthError = 8.0 };
        one.Fly(-60.0, 100.0);
        other.Fly(-60.0, 100.0);
        Assert.Equal((one.Estimate.Belief, one.Estimate.BySensor, one.Calls), (other.Estimate.Belief, other.Estimate.BySensor, other.Calls));
    }

    [Fact]
    public void A_tick_with_a_sensor_allocates_nothing()
    {
        Sensed pass = new(seed: 41) { AzimuthError = 8.0 };
        pass.Fly(-60.0, 60.0);
        long before = GC.GetAllocatedBytesForCurrentThread();
        for (int i = 0; i < 500; i++)
        {
            double now = 60.0 + (i / 10.0);
            pass.Estimate.Sense(now, new SensorReading(pass.Azimuth, pass.Elevation, 0.0, false));
            pass.Estimate.Level(LevelKind.SignalToNoise, 9.0);
            if (pass.Estimate.Advance(now + 1e-6))
            {
                pass.Steersman.Advance();
            }
        }

        Assert.Equal(0, GC.GetAllocatedBytesForCurrentThread() - before);
    }

    /// <summary>A pass whose dish bears a sensor, ten samples a second.</summary>
    private sealed class Sensed(ulong seed)
    {
        private readonly ExactHand _hand = new(seed: seed);
        private readonly Core.Chance.Xoshiro256 _chance = new(seed, 11);

        public double AzimuthError { get; set; }

        public double ElevationError { get; set; }

        public bool ElevationOnly { get; init; }

        public bool Asleep { get; set; }

        public (double Azimuth, double Elevation, double Roll)? Hangs { get; set; }

        public double Azimuth { get => _hand.Azimuth; set => _hand.Azimuth = value; }

        public double Elevation { get => _hand.Elevation; set => _hand.Elevation = value; }

        public DishEstimate Estimate => _hand.Estimate;

        public Core.Steering.Steersman Steersman => _hand.Steersman;

        public int Calls => _hand.Calls;

        public double OffBelief() => _hand.OffBelief();

        public double OffSensed()
        {
            SensedPlace place = Estimate.BySensor!.Value;
            return Math.Sqrt(Vector.Of(place.Azimuth, place.Elevation).SquareTo(Vector.Of(Azimuth, Elevation)));
        }

        public void Fly(double from, double to)
        {
            for (int i = (int)Math.Round(from * 10.0); i < (int)Math.Round(to * 10.0); i++)
            {
                Step(i / 10.0);
            }
        }

        public void Step(double now)
        {
            (double side, double high) = (0.5 * _chance.NextNormal(), 0.5 * _chance.NextNormal());
            if (!Asleep)
            {
                Estimate.Sense(now, Hangs is { } hung
                    ? new SensorReading(hung.Azimuth + side, hung.Elevation + high, hung.Roll, false)
                    : new SensorReading(ElevationOnly ? null : Azimuth + AzimuthError + side, Elevation + ElevationError + high, 0.0, false));
            }

            _hand.Step(now);
        }
    }
}
