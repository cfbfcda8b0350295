using Cockpit.Core.Chance;
using Cockpit.Core.Formats.Elements;
using Cockpit.Core.Geo;
using Cockpit.Core.Orbit;
using Cockpit.Core.Orbit.Theory;
using Cockpit.Core.Units;
using Xunit.Abstractions;

namespace Cockpit.Tests.Orbit;

public sealed class Sgp4BatchTests(ITestOutputHelper output)
{
    private static readonly ElementFile File = ElementSets.Read(
        "synthetic", new StringReader(System.IO.File.ReadAllText(ReferenceFiles.PathOf("01_sgp4/synth_elements.tle"))));

    [Fact]
    public void The_batch_agrees_with_the_single_form_for_a_day()
    {
        double largest = 0.0;
        foreach (ElementSet set in File.Sets)
        {
            // 1441 minutes and an odd one: whole groups of lanes and a rest.
            double[] minutes = [.. Enumerable.Range(0, 2 * 1440 + 1).Select(k => (k - 1440.0) + 0.123)];
            largest = Math.Max(largest, LargestDifference(new Sgp4(set), minutes));
        }

        output.WriteLine($"{largest:0.0e+00} km");
        Assert.InRange(largest, 0.0, 1e-9);
    }

    [Fact]
    public void The_batch_agrees_over_random_near_earth_orbits()
    {
        var chance = new Xoshiro256(20261125);
        double largest = 0.0;
        for (int k = 0; k < 300; k++)
        {
            double eccentricity = 0.35 * Math.Pow(chance.NextUnit(), 3);
            double perigeeRadius = 1.0 + (0.02 + (0.2 * chance.NextUnit()));
            double axis = perigeeRadius / (1.0 - eccentricity);
            ElementSet set = File.Sets[0] with
            {
                Eccentricity = eccentricity,
                MeanMotionRevPerDay = 17.0 * Math.Pow(axis, -1.5),
                Inclination = Angle.FromDegrees(180.0 * chance.NextUnit()),
                ArgumentOfPerigee = Angle.FromDegrees(360.0 * chance.NextUnit()),
                MeanAnomaly = Angle.FromDegrees(360.0 * chance.NextUnit()),
                BStar = 1e-3 * chance.NextNormal(),
            };
            double[] minutes = [.. Enumerable.Range(0, 64).Select(_ => 1440.0 * ((2.0 * chance.NextUnit()) - 1.0))];
            largest = Math.Max(largest, LargestDifference(new Sgp4(set), minutes));
        }

        output.WriteLine($"{largest:0.0e+00} km");
        Assert.InRange(largest, 0.0, 1e-9);
    }

    [Fact]
    public void A_wrong_time_or_length_is_the_callers_mistake()
    {
        var sgp4 = new Sgp4(File.Sets[0]);
        var states = new TemeState[4];
        var statuses = new PropagationStatus[4];
        Assert.Throws<ArgumentOutOfRangeException>(() => sgp4.Propagate([0.0, double.NaN, 1.0, 2.0], states, statuses));
        Assert.Throws<ArgumentOutOfRangeException>(() => sgp4.Propagate([0.0, 2e10, 1.0, 2.0], states, statuses));
        Assert.Throws<ArgumentException>(() => sgp4.Propagate([0.0], states, statuses));
    }

    [Fact]
    public void Propagating_allocates_nothing()
    {
        var near = new Sgp4(File.Sets[0]);
        var resonant = new Sgp4(File.Sets[4]);
        double[] minutes = [.. Enumerable.Range(0, 64).Select(k => k * 10.0)];
        var states = new TemeState[64];
        var statuses = new PropagationStatus[64];
        near.Propagate(minutes, states, statuses);
        resonant.Propagate(minutes, states, statuses);

        long before = GC.GetAllocatedBytesForCurrentThread();
        near.Propagate(minutes, states, statuses);
        resonant.Propagate(minutes, states, statuses);
        near.Propagate(5.0, out _);
        Assert.Equal(before, GC.GetAllocatedBytesForCurrentThread());
    }

    private static double LargestDifference(Sgp4 sgp4, double[] minutes)
    {
        var states = new TemeState[minutes.Length];
        var statuses = new PropagationStatus[minutes.Length];
        sgp4.Propagate(minutes, states, statuses);
        double largest = 0.0;
        for (int k = 0; k < minutes.Length; k++)
        {
            Assert.Equal(sgp4.Propagate(minutes[k], out TemeState one), statuses[k]);
            TemeState many = states[k];
            largest = Math.Max(largest, Math.Max(Math.Abs(one.X - many.X), Math.Max(Math.Abs(one.Y - many.Y), Math.Abs(one.Z - many.Z))));
        }

        return largest;
    }
}
