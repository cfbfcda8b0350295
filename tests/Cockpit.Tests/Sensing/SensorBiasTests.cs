using Cockpit.Core.Chance;
using Cockpit.Core.Sensing;
using Cockpit.Core.Units;

namespace Cockpit.Tests.Sensing;

/// <summary>The errors of a sensor learnt from a dish whose direction the signal tells now and then.</summary>
public sealed class SensorBiasTests
{
    private const double SignalDegrees = 1.5;

    [Fact]
    public void One_look_tells_the_error_at_that_height_and_a_pass_parts_what_turns_with_the_dish_from_what_does_not()
    {
        SensorBias once = SensorBias.Unknown.Seen(Degrees(112), Degrees(30), Degrees(100), Degrees(30), Degrees(0.1));
        (Angle azimuth, Angle elevation) = once.Corrected(Degrees(112), Degrees(30));
        Assert.Equal(100.0, azimuth.Degrees, 0.05);
        Assert.Equal(30.0, elevation.Degrees, 0.05);
        Assert.InRange(once.DoubtAt(Degrees(30)).Degrees, 0.0, 0.15);

        // At another height the two errors are not told apart yet.
        Assert.InRange(once.DoubtAt(Degrees(75)).Degrees, 2.0, 5.0);
    }

    // 20 to 85 degrees and back in twelve minutes, the signal every 20 s.
    [Theory]
    [InlineData(0.0, 0.0, 0.0, 0.0)]
    [InlineData(25.0, 0.0, 0.0, 0.0)]
    [InlineData(-12.0, 5.0, -3.0, 0.0)]
    [InlineData(10.0, -4.0, 2.0, 0.1)]
    [InlineData(10.0, -4.0, 2.0, 0.3)]
    public void After_three_minutes_what_is_left_is_small(double bias, double right, double up, double walk)
    {
        double[] left = [.. Enumerable.Range(1, 40).Select(seed => Fly(bias, right, up, walk, jumpAt: null, (ulong)seed).Rms)];
        Array.Sort(left);
        Assert.InRange(left[20], 0.0, walk > 0.2 ? 3.0 : 1.5);
        Assert.InRange(left[36], 0.0, walk > 0.2 ? 4.5 : 2.5);
    }

    [Fact]
    public void The_doubt_says_how_far_it_is_off()
    {
        (double Error, double Doubt)[] all = [.. Enumerable.Range(1, 40).SelectMany(seed => Fly(8, 3, -2, 0.1, null, (ulong)seed).Late)];
        double normalised = Math.Sqrt(all.Average(one => one.Error * one.Error / (one.Doubt * one.Doubt)));
        Assert.InRange(normalised, 0.6, 1.5);
    }

    [Fact]
    public void A_jump_of_twenty_degrees_is_forgotten_within_a_minute()
    {
        double[] left = [.. Enumerable.Range(1, 40).Select(seed => Fly(8, 3, -2, 0.05, jumpAt: 360, (ulong)seed).AfterJump)];
        Array.Sort(left);

        // It jumps at 85 degrees, where an error of the azimuth hardly shows across the axis.
        Assert.InRange(left[36], 0.0, 5.0);
    }

    [Fact]
    public void A_sensor_with_an_arbitrary_zero_is_known_after_one_look() =>
        Assert.Equal(200.0, SensorBias.Arbitrary.Seen(Degrees(300), null, Degrees(200), Degrees(10), Degrees(1)).Corrected(Degrees(300), Degrees(10)).Azimuth.Degrees, 0.5);

    [Fact]
    public void An_inclinometer_learns_its_height_alone()
    {
        SensorBias bias = SensorBias.Unknown.Seen(null, Degrees(33), Degrees(100), Degrees(30), Degrees(0.2));
        Assert.Equal(SensorBias.Unknown.DoubtAt(Degrees(30)), bias.DoubtAt(Degrees(30)));
        Assert.Equal(30.0, bias.Corrected(Degrees(100), Degrees(33)).Elevation.Degrees, 0.05);
    }

    /// <summary>Flies a pass.</summary>
    /// <returns>Root mean square of what is left across the axis from the third minute on; each with its doubt; what is left a minute after a jump.</returns>
    private static (double Rms, List<(double Error, double Doubt)> Late, double AfterJump) Fly(double bias, double right, double up, double walk, double? jumpAt, ulong seed)
    {
        Xoshiro256 chance = new(seed);
        SensorBias known = SensorBias.Unknown;
        List<(double Error, double Doubt)> late = [];
        double wandered = 0.0, afterJump = 0.0;
        for (int second = 0; second <= 720; second++)
        {
            wandered += walk * chance.NextNormal();
            Angle elevation = Degrees(20.0 + (65.0 * (1.0 - Math.Abs((second - 360.0) / 360.0))));
            Angle azimuth = Degrees(30.0 + (second * 0.3));
            double off = bias + wandered + (second >= jumpAt ? 20.0 : 0.0);
            Angle read = azimuth + Degrees(off + (right / elevation.Cos()));
            Angle high = elevation + Degrees(up);
            known = known.After(TimeSpan.FromSeconds(1));
            if (second % 20 == 0)
            {
                double spread = 1.0 / elevation.Cos();
                known = known.Seen(
                    read, high, azimuth + Degrees(SignalDegrees * spread * chance.NextNormal()), elevation + Degrees(SignalDegrees * chance.NextNormal()), Degrees(SignalDegrees));
            }

            double error = (known.Corrected(read, high).Azimuth - azimuth).WrappedToHalfTurn().Degrees * elevation.Cos();
            if (second >= 180)
            {
                late.Add((error, known.DoubtAt(elevation).Degrees));
            }

            afterJump = jumpAt is { } jumped && second == jumped + 60 ? Math.Abs(error) : afterJump;
        }

        return (Math.Sqrt(late.Average(one => one.Error * one.Error)), late, afterJump);
    }

    private static Angle Degrees(double value) => Angle.FromDegrees(value);
}
