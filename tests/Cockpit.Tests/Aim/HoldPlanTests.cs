using System.Collections.Immutable;
using Cockpit.Core.Aim;
using Cockpit.Core.Passes;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;
using Cockpit.Session.Rehearsal;
using CsCheck;

namespace Cockpit.Tests.Aim;

/// <summary>The closed-form pass and the hold plan against an independent prototype's figures (another language, another cap solver).</summary>
public sealed class HoldPlanTests
{
    private static readonly DateTimeOffset Aos = new(2026, 11, 25, 10, 15, 0, TimeSpan.Zero);

    private static readonly Beam Beam = new(Angle.FromDegrees(70.0 * 0.176 / 0.8));

    [Theory]
    [InlineData(15, 566, 0.204)]
    [InlineData(30, 711, 0.296)]
    [InlineData(45, 756, 0.383)]
    [InlineData(60, 774, 0.453)]
    [InlineData(75, 781, 0.498)]
    [InlineData(88, 784, 0.513)]
    public void A_circular_pass_has_the_known_length_and_peak_rate(double highest, double seconds, double degreesPerSec)
    {
        CircularPass pass = new(Aos, Angle.FromDegrees(highest));
        Assert.Equal(seconds, pass.Duration.TotalSeconds, 0.5);
        Assert.Equal(5.0, pass.Pass.Aos.Look.Elevation.Degrees, 1e-9);
        Assert.Equal(highest, pass.Pass.Tca.Look.Elevation.Degrees, 1e-9);
        Assert.Equal(5.0, pass.Pass.Los.Look.Elevation.Degrees, 1e-6);

        ImmutableArray<PassMoment> track = Track(highest);
        double peak = track.Zip(track.Skip(1), (a, b) => Separation(a.Look, b.Look).Degrees / 0.5).Max();
        Assert.Equal(degreesPerSec, peak, 0.0005);
    }

    [Theory]
    [InlineData(15, 94.8)]
    [InlineData(88, 170.0)]
    public void A_circular_pass_has_the_known_path_on_the_sky(double highest, double degrees)
    {
        ImmutableArray<PassMoment> track = Track(highest);
        Assert.Equal(degrees, track.Zip(track.Skip(1), (a, b) => Separation(a.Look, b.Look).Degrees).Sum(), 0.2);
    }

    [Fact]
    public void The_range_rate_is_the_slope_of_the_range()
    {
        CircularPass pass = new(Aos, Angle.FromDegrees(60));
        for (int s = 0; s < 700; s += 50)
        {
            DateTimeOffset at = Aos.AddSeconds(s);
            double slope = (pass.At(at.AddSeconds(0.5))!.Value.RangeKm - pass.At(at.AddSeconds(-0.5))!.Value.RangeKm) / 1.0;
            Assert.Equal(slope, pass.At(at)!.Value.RangeRateKmPerSec, 5e-5);
        }
    }

    [Theory]
    [InlineData(15, 16, 11, 7)]
    [InlineData(30, 22, 16, 9)]
    [InlineData(45, 25, 18, 10)]
    [InlineData(60, 27, 19, 11)]
    [InlineData(75, 28, 20, 11)]
    [InlineData(88, 28, 20, 12)]
    public void The_plan_has_the_known_number_of_holds(double highest, int atHalfDb, int atOneDb, int atThreeDb)
    {
        ReadOnlySpan<PassMoment> track = Track(highest).AsSpan();
        Assert.Equal(atHalfDb, HoldPlan.Make(track, Beam, new Decibels(0.5)).Length);
        Assert.Equal(atOneDb, HoldPlan.Make(track, Beam, new Decibels(1.0)).Length);
        Assert.Equal(atThreeDb, HoldPlan.Make(track, Beam, new Decibels(3.0)).Length);
    }

    [Theory]
    [InlineData(15)]
    [InlineData(45)]
    [InlineData(88)]
    [InlineData(90)]
    public void Every_sample_lies_within_the_allowed_loss_of_its_hold(double highest)
    {
        ImmutableArray<PassMoment> track = Track(highest);
        ImmutableArray<Hold> holds = HoldPlan.Make(track.AsSpan(), Beam, new Decibels(0.5));
        Assert.Equal(track[0].Utc, holds[0].FromUtc);
        Assert.Equal(track[^1].Utc, holds[^1].ToUtc);
        for (int i = 0; i < holds.Length; i++)
        {
            Hold hold = holds[i];
            Assert.Equal(i + 1, hold.Number);
            Assert.True(i == 0 || hold.FromUtc == holds[i - 1].ToUtc);
            double worst = track.Where(m => m.Utc >= hold.FromUtc && m.Utc <= hold.ToUtc).Max(m => LossAt(hold, m));
            Assert.Equal(worst, hold.WorstLoss.Value, 1e-6);
            Assert.InRange(worst, 0.0, 0.5 + 1e-9);
        }
    }

    [Fact]
    public void An_overlap_gives_the_hand_time_and_still_covers_the_pass()
    {
        ImmutableArray<PassMoment> track = Track(60);
        ImmutableArray<Hold> holds = HoldPlan.Make(track.AsSpan(), Beam, new Decibels(0.5), TimeSpan.FromSeconds(2));
        for (int i = 1; i < holds.Length; i++)
        {
            Assert.Equal(TimeSpan.FromSeconds(2), holds[i - 1].ToUtc - holds[i].FromUtc);
        }

        Assert.Equal(track[^1].Utc, holds[^1].ToUtc);
    }

    [Fact]
    public void Samples_too_far_apart_still_give_a_plan_that_ends()
    {
        ImmutableArray<PassMoment> track = HoldPlan.Sample(new CircularPass(Aos, Angle.FromDegrees(60)), Aos, Aos.AddSeconds(700), TimeSpan.FromSeconds(60));
        ImmutableArray<Hold> holds = HoldPlan.Make(track.AsSpan(), Beam, new Decibels(0.1));
        Assert.InRange(holds.Length, 2, track.Length);
        Assert.Equal(track[^1].Utc, holds[^1].ToUtc);
        Assert.Empty(HoldPlan.Make([], Beam, new Decibels(0.5)));
    }

    // The smallest cap found by pivoting against the smallest over all pairs and triples, tried one by one.
    [Fact]
    public void The_smallest_cap_is_the_smallest()
    {
        Gen<(double Az, double El)> near = Gen.Select(Gen.Double[0, 40], Gen.Double[-10, 30]);
        near.Array[3, 9].Sample(
            points =>
            {
                PassMoment[] track = [.. points.Select((p, i) => new PassMoment(
                    Aos.AddSeconds(i), new LookAngles(Angle.FromDegrees(p.Az), Angle.FromDegrees(60 + p.El), 1000, 0)))];
                Hold hold = HoldPlan.Longest(track, new Beam(Angle.FromDegrees(120)), new Decibels(20), 1);
                double radius = 120.0 * Math.Sqrt(hold.WorstLoss.Value / 12.0);
                double best = ByTrial(track);
                return hold.ToUtc == track[^1].Utc && Math.Abs(radius - best) < 1e-6;
            },
            iter: 300,
            threads: 1);
    }

    private static double ByTrial(PassMoment[] track)
    {
        (double X, double Y, double Z)[] p = [.. track.Select(m => (
            Math.Sin(m.Look.Azimuth.Radians) * Math.Cos(m.Look.Elevation.Radians),
            Math.Cos(m.Look.Azimuth.Radians) * Math.Cos(m.Look.Elevation.Radians),
            Math.Sin(m.Look.Elevation.Radians)))];
        double best = double.PositiveInfinity;
        for (int i = 0; i < p.Length; i++)
        {
            for (int j = i + 1; j < p.Length; j++)
            {
                Try((p[i].X + p[j].X, p[i].Y + p[j].Y, p[i].Z + p[j].Z));
                for (int k = j + 1; k < p.Length; k++)
                {
                    (double ax, double ay, double az) = (p[j].X - p[i].X, p[j].Y - p[i].Y, p[j].Z - p[i].Z);
                    (double bx, double by, double bz) = (p[k].X - p[i].X, p[k].Y - p[i].Y, p[k].Z - p[i].Z);
                    (double X, double Y, double Z) n = ((ay * bz) - (az * by), (az * bx) - (ax * bz), (ax * by) - (ay * bx));
                    Try(n);
                    Try((-n.X, -n.Y, -n.Z));
                }
            }
        }

        return best;

        void Try((double X, double Y, double Z) axis)
        {
            double length = Math.Sqrt((axis.X * axis.X) + (axis.Y * axis.Y) + (axis.Z * axis.Z));
            if (length < 1e-12)
            {
                return;
            }

            double least = p.Min(q => ((q.X * axis.X) + (q.Y * axis.Y) + (q.Z * axis.Z)) / length);
            best = Math.Min(best, Math.Acos(Math.Clamp(least, -1, 1)) * 180 / Math.PI);
        }
    }

    private static ImmutableArray<PassMoment> Track(double highest)
    {
        CircularPass pass = new(Aos, Angle.FromDegrees(highest));
        return HoldPlan.Sample(pass, Aos, Aos + pass.Duration, HoldPlan.Step);
    }

    private static double LossAt(Hold hold, PassMoment m) =>
        Beam.LossAt(AimErrors.Separation(hold.Azimuth, hold.Elevation, m.Look.Azimuth, m.Look.Elevation)).Value;

    private static Angle Separation(LookAngles a, LookAngles b) => AimErrors.Separation(a.Azimuth, a.Elevation, b.Azimuth, b.Elevation);
}
