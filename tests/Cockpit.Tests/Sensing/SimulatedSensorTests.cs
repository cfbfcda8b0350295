using System.Text;
using Cockpit.Core.Formats.Sensors;
using Cockpit.Core.Sensing;
using Cockpit.Core.Units;
using Cockpit.Session.Rehearsal;

namespace Cockpit.Tests.Sensing;

/// <summary>A simulated sensor: each of its flaws has the size that was asked for, and its lines read back.</summary>
public sealed class SimulatedSensorTests
{
    private static readonly DateTimeOffset Start = new(2026, 11, 26, 10, 0, 0, TimeSpan.Zero);
    private static readonly SensorFlaws None = new(Angle.Zero, Angle.Zero, Angle.Zero, Angle.Zero, TimeSpan.Zero);

    [Fact]
    public void Without_flaws_it_tells_where_the_dish_is()
    {
        SensorSample said = new SimulatedSensor(Turning, None, 1).At(Start.AddSeconds(10));
        Assert.Equal((100.0, 30.0), (Math.Round(said.Azimuth!.Value.Degrees, 9), Math.Round(said.Elevation!.Value.Degrees, 9)));
    }

    [Fact]
    public void Latency_bias_and_iron_are_what_they_say()
    {
        Assert.Equal(95.0, new SimulatedSensor(Turning, None with { Latency = TimeSpan.FromSeconds(0.5) }, 1).At(Start.AddSeconds(10)).Azimuth!.Value.Degrees, 6);
        Assert.Equal(112.0, new SimulatedSensor(Turning, None with { Bias = Angle.FromDegrees(12) }, 1).At(Start.AddSeconds(10)).Azimuth!.Value.Degrees, 6);
        Assert.Equal(95.0, new SimulatedSensor(Turning, None with { Iron = Angle.FromDegrees(5) }, 1).At(Start.AddSeconds(9)).Azimuth!.Value.Degrees, 6);
    }

    [Fact]
    public void Noise_and_wander_have_their_size()
    {
        SimulatedSensor noisy = new(_ => (Angle.FromDegrees(100), Angle.Zero), None with { Noise = Angle.FromDegrees(0.5) }, 3);
        double[] errors = [.. Enumerable.Range(0, 4000).Select(i => noisy.At(Start.AddSeconds(i * 0.05)).Elevation!.Value.Degrees)];
        Assert.InRange(Math.Sqrt(errors.Average(e => e * e)), 0.47, 0.53);

        // After 100 s a walk of 0.1 degrees a root second is a degree off, one standard deviation.
        double[] ends = [.. Enumerable.Range(0, 400).Select(seed =>
        {
            SimulatedSensor wandering = new(_ => (Angle.FromDegrees(100), Angle.Zero), None with { Wander = Angle.FromDegrees(0.1) }, (ulong)seed);
            _ = wandering.At(Start);
            for (int i = 1; i < 50; i++)
            {
                _ = wandering.At(Start.AddSeconds(i * 2));
            }

            return wandering.At(Start.AddSeconds(100)).Azimuth!.Value.Degrees - 100.0;
        })];
        Assert.InRange(Math.Sqrt(ends.Average(e => e * e)), 0.9, 1.1);
    }

    [Theory]
    [InlineData(SensorForm.Pairs, 0.0006)]
    [InlineData(SensorForm.Json, 0.0006)]
    [InlineData(SensorForm.Quaternion, 0.0001)]
    [InlineData(SensorForm.Nmea, 0.0051)]
    public void What_is_written_reads_back(SensorForm form, double tolerance)
    {
        SensorReader reader = new(SensorOptions.Usual);
        SensorSample read = default;
        SensorSample sample = new(Angle.FromDegrees(214.5432), Angle.FromDegrees(32.1234), Angle.FromDegrees(-3.5), SensorNorth.True);
        foreach (string line in SensorText.Of(sample, form).Split('\n', StringSplitOptions.RemoveEmptyEntries))
        {
            SensorLineReading one = reader.Read(Encoding.ASCII.GetBytes(line), "f");
            Assert.Null(one.Error);
            read = one.Sample!.Value.Over(read);
        }

        Assert.InRange(Math.Abs(read.Azimuth!.Value.Degrees - 214.5432), 0, tolerance);
        Assert.InRange(Math.Abs(read.Elevation!.Value.Degrees - 32.1234), 0, tolerance);
        Assert.InRange(Math.Abs(read.Roll!.Value.Degrees + 3.5), 0, tolerance);
        Assert.Equal(SensorNorth.True, read.North);
    }

    // Ten degrees a second through the east.
    private static (Angle Azimuth, Angle Elevation) Turning(DateTimeOffset utc) => (Angle.FromDegrees(10 * (utc - Start).TotalSeconds), Angle.FromDegrees(30));
}
