using System.Collections.Immutable;
using Cockpit.Core.Aim;
using Cockpit.Core.Chance;
using Cockpit.Core.Passes;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;
using Cockpit.Session.Rehearsal;

namespace Cockpit.Tests.Aim;

/// <summary>Which holds the sun forbids, and where the dish stands instead.</summary>
public sealed class SunAvoidanceTests
{
    private static readonly DateTimeOffset Aos = new(2026, 11, 25, 10, 0, 0, TimeSpan.Zero);
    private static readonly Decibels Allowed = new(0.5);

    private sealed record Case(ImmutableArray<PassMoment> Path, Beam Beam, SkyPlace Sun)
    {
        public SunAvoidance Avoidance => new(utc => Sun with { Azimuth = Sun.Azimuth + Angle.FromDegrees(0.25 * (utc - Aos).TotalMinutes) }, Beam.HalfPowerWidth);

        public ImmutableArray<Hold> Plain => HoldPlan.Make(Path.AsSpan(), Beam, Allowed);

        public ImmutableArray<Hold> Plan => Avoidance.Apply(Plain, Path, Beam);
    }

    private static IEnumerable<Case> Cases(ulong seed, int count)
    {
        Xoshiro256 chance = new(seed, 1);
        double Between(double least, double most) => least + ((most - least) * chance.NextUnit());
        for (int i = 0; i < count; i++)
        {
            yield return Of(Between(12, 89), Between(9, 22), Between(0, 1), Between(0, 20), Between(0, 360));
        }
    }

    [Fact]
    public void The_axis_stays_more_than_a_beam_width_from_the_sun_in_every_hold_and_every_turn()
    {
        foreach (Case c in Cases(41, 400))
        {
            SunAvoidance avoidance = c.Avoidance;
            ImmutableArray<Hold> plan = c.Plan;
            for (int i = 0; i < plan.Length; i++)
            {
                SkyPlace stands = plan[i].Flown();
                Angle? nearest = avoidance.Nearest(plan[i].FromUtc, plan[i].ToUtc, stands.Azimuth, stands.Elevation);
                Assert.True(nearest > c.Beam.HalfPowerWidth, $"hold {i + 1} of {plan.Length}: {nearest?.Degrees:0.0} of {c.Beam.HalfPowerWidth.Degrees:0.0}");
                Assert.True(i == 0 || !avoidance.Blocks(plan[i].FromUtc, plan[i - 1].Flown(), stands), $"turn to hold {i + 1} of {plan.Length}");
            }
        }
    }

    [Fact]
    public void A_hold_that_is_clear_of_the_sun_stays_as_it_was_and_one_that_is_not_is_marked()
    {
        foreach (Case c in Cases(42, 200))
        {
            SunAvoidance avoidance = c.Avoidance;
            foreach ((Hold was, Hold now) in c.Plain.Zip(c.Plan))
            {
                Angle? nearest = avoidance.Nearest(was.FromUtc, was.ToUtc, was.Azimuth, was.Elevation);
                Assert.Equal(was, now with { Skip = null });
                Assert.True(now.Skip is not null || nearest > c.Beam.HalfPowerWidth);
                Assert.True(now.Skip is null || nearest < 1.8 * c.Beam.HalfPowerWidth, "only what is near the sun is skipped");
                Assert.True(now.Skip is null || now.Skip.Separation == nearest);
            }
        }
    }

    // Waiting here is the best that a plan could do which keeps one hold or begins another early; most of these plans cannot be flown.
    [Fact]
    public void Going_around_keeps_as_much_of_the_pass_as_waiting_on_either_side_whose_turn_leads_through_the_sun()
    {
        int around = 0;
        int waiting = 0;
        int behind = 0;
        foreach (Case c in Cases(43, 200))
        {
            (int kept, int waited) = Kept(c);
            (around, waiting) = (around + kept, waiting + waited);
            behind += kept < waited - (c.Path.Length / 10) ? 1 : 0;
        }

        Assert.True(around > 0.97 * waiting && behind <= 6, $"{around} against {waiting} moments within 6 dB; {behind} passes where waiting is better by a tenth");
    }

    [Fact]
    public void A_sun_that_is_down_changes_nothing()
    {
        Case c = Of(60, 15, 0.5, 0, 0);
        Assert.Equal(c.Plain.AsEnumerable(), new SunAvoidance(_ => null, c.Beam.HalfPowerWidth).Apply(c.Plain, c.Path, c.Beam).AsEnumerable());
        Assert.NotEqual(c.Plain.AsEnumerable(), c.Plan.AsEnumerable());
    }

    private static (int Around, int Waiting) Kept(Case c)
    {
        ImmutableArray<Hold> plan = c.Plan;
        Hold[] flown = [.. plan.Where(hold => hold.Skip is null)];
        if (flown.Length == 0 || flown.Length == plan.Length) { return (0, 0); }

        (int around, int waiting) = (0, 0);
        foreach (PassMoment moment in c.Path)
        {
            Hold hold = plan.First(h => moment.Utc <= h.ToUtc);
            double going = LossAt(c, moment, hold.Flown());
            double before = flown.LastOrDefault(h => h.Number < hold.Number) is { } kept ? LossAt(c, moment, kept.Flown()) : double.PositiveInfinity;
            double after = flown.FirstOrDefault(h => h.Number > hold.Number) is { } early ? LossAt(c, moment, early.Flown()) : double.PositiveInfinity;
            around += going <= 6.0 ? 1 : 0;
            waiting += (hold.Skip is null ? going : Math.Min(before, after)) <= 6.0 ? 1 : 0;
        }

        return (around, waiting);
    }

    private static double LossAt(Case c, PassMoment moment, SkyPlace stands) =>
        c.Beam.LossAt(AimErrors.Separation(stands.Azimuth, stands.Elevation, moment.Look.Azimuth, moment.Look.Elevation)).Value;

    private static Case Of(double highest, double width, double part, double aside, double side)
    {
        CircularPass pass = new(Aos, Angle.FromDegrees(highest));
        ImmutableArray<PassMoment> path = HoldPlan.Sample(pass, Aos, Aos + pass.Duration, HoldPlan.Step);
        LookAngles there = path[(int)(part * (path.Length - 1))].Look;
        (double sin, double cos) = Math.SinCos(side * Math.PI / 180.0);
        (Angle azimuth, Angle elevation) = AimErrors.Moved(there.Azimuth, there.Elevation, Angle.FromDegrees(aside * cos), Angle.FromDegrees(aside * sin));
        return new Case(path, new Beam(Angle.FromDegrees(width)), new SkyPlace(azimuth, elevation));
    }
}
