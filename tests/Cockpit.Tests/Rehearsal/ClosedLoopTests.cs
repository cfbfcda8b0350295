using System.Collections.Immutable;
using Cockpit.Core.Aim;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;
using Cockpit.Session.Rehearsal;

namespace Cockpit.Tests.Rehearsal;

/// <summary>The simulated world and hand against an independent prototype's figures; guidance against none is the test of its command.</summary>
/// <remarks>
/// Few seeds, so that the suite stays fast: the bounds are the prototype's means over 300 passes with room for the scatter
/// of so few. The full table: cockpit check guidance --seeds 50.
/// </remarks>
public sealed class ClosedLoopTests
{
    private static readonly DateTimeOffset Aos = new(2026, 11, 25, 10, 15, 0, TimeSpan.Zero);

    [Theory]
    [InlineData(5, 1.6)]
    [InlineData(10, 2.6)]
    [InlineData(30, 6.0)]
    [InlineData(60, 8.8)]
    [InlineData(88, 9.6)]
    public void The_margin_on_axis_follows_the_known_course(double elevation, double margin)
    {
        CircularPass pass = new(Aos, Angle.FromDegrees(88));
        DateTimeOffset at = Aos;
        while (pass.At(at)!.Value.Elevation.Degrees < elevation - 0.01)
        {
            at = at.AddSeconds(0.1);
        }

        SimulatedReceiver receiver = new(pass, new Beam(Angle.FromDegrees(15.4)), 0.8, 1);
        Assert.Equal(margin, receiver.MarginOnAxisDb(pass.At(at)!.Value), 0.06);
    }

    [Fact]
    public void Fading_noise_and_offset_have_their_sizes()
    {
        CircularPass pass = new(Aos, Angle.FromDegrees(60));
        double[] offsets = [.. Enumerable.Range(0, 400).Select(i => Receiver(pass, (ulong)i).OffsetDb)];
        Assert.Equal(0.0, offsets.Average(), 0.25);
        Assert.Equal(1.5, Math.Sqrt(offsets.Average(o => o * o)), 0.15);

        SimulatedReceiver receiver = Receiver(pass, 7);
        List<double> fading = [];
        List<double> noise = [];
        DateTimeOffset high = Aos + (pass.Duration / 2);
        for (int i = 0; i < 20000; i++)
        {
            LookAngles look = pass.At(high)!.Value;
            receiver.Measure(high, look.Azimuth, look.Elevation);
            fading.Add(receiver.MarginDb - receiver.MarginOnAxisDb(look));
            noise.Add(receiver.ReadingDb - receiver.MarginDb - receiver.OffsetDb);
        }

        Assert.Equal(0.40, Math.Sqrt(fading.Average(f => f * f)), 0.04);
        Assert.Equal(0.7, Math.Sqrt(noise.Average(n => n * n)), 0.03);
        double lagged = fading.Zip(fading.Skip(20), (a, b) => a * b).Average() / fading.Average(f => f * f);
        Assert.Equal(Math.Exp(-1.0), lagged, 0.1); // two seconds
    }

    [Fact]
    public void The_same_seed_is_the_same_sky_for_every_hand()
    {
        CircularPass pass = new(Aos, Angle.FromDegrees(60));
        SimulatedReceiver on = Receiver(pass, 5);
        SimulatedReceiver off = Receiver(pass, 5);
        for (int i = 0; i < 200; i++)
        {
            DateTimeOffset at = Aos.AddSeconds(200 + (0.1 * i));
            LookAngles look = pass.At(at)!.Value;
            on.Measure(at, look.Azimuth, look.Elevation);
            off.Measure(at, look.Azimuth, look.Elevation - Angle.FromDegrees(5));
            double loss = new Beam(Angle.FromDegrees(15.4)).LossAt(Angle.FromDegrees(5)).Value;
            Assert.Equal(on.MarginDb - loss, off.MarginDb, 1e-9);
        }
    }

    [Fact]
    public void An_obstruction_takes_what_it_says_while_it_lasts()
    {
        CircularPass pass = new(Aos, Angle.FromDegrees(60));
        Obstruction bus = new(Aos.AddSeconds(300), TimeSpan.FromSeconds(4), new Decibels(9));
        SimulatedReceiver free = Receiver(pass, 5);
        SimulatedReceiver blocked = new(pass, new Beam(Angle.FromDegrees(15.4)), 0.8, 5, [bus]);
        for (double s = 299; s < 306; s += 0.1)
        {
            LookAngles look = pass.At(Aos.AddSeconds(s))!.Value;
            free.Measure(Aos.AddSeconds(s), look.Azimuth, look.Elevation);
            blocked.Measure(Aos.AddSeconds(s), look.Azimuth, look.Elevation);
            double taken = free.MarginDb - blocked.MarginDb;
            Assert.True(Math.Abs(taken) < 1e-9 || Math.Abs(taken - 9) < 1e-9);
            Assert.Equal(Aos.AddSeconds(s) >= bus.FromUtc && Aos.AddSeconds(s) < bus.FromUtc + bus.Length, taken > 1);
        }
    }

    // Prototype, 300 passes: perfect pointing 0.6 %, perfect hold plan 0.8 % of the lines lost, 23 moves, 1.8 degrees.
    [Fact]
    public void Perfect_pointing_and_a_perfect_hold_plan_lose_what_the_path_takes()
    {
        GuidanceRow perfect = Row(Steering.Perfect, HandSkill.Practised, 2);
        GuidanceRow plan = Row(Steering.HoldPlan, HandSkill.Practised, 2);
        Assert.InRange(perfect.LostPercent, 0.3, 1.1);
        Assert.InRange(plan.LostPercent, perfect.LostPercent, 1.5);
        Assert.Equal(1.8, plan.RmsDegrees, 0.1);
        Assert.Equal(23, plan.Moves, 1.0);
    }

    // Prototype, 300 passes, without guidance: novice 30.5 %, practised 9.4 %; a standard deviation of a pass is about 14 and 5 %.
    [Fact]
    public void The_unguided_hand_loses_about_what_the_prototypes_does()
    {
        Assert.InRange(Row(Steering.Unguided, HandSkill.Novice, 3).LostPercent, 20, 42);
        Assert.InRange(Row(Steering.Unguided, HandSkill.Practised, 3).LostPercent, 6, 14);
    }

    [Fact]
    public void Guided_hands_lose_a_fraction_of_what_unguided_ones_lose()
    {
        GuidanceRow guided = Row(Steering.Guided, HandSkill.Practised, 1);
        GuidanceRow unguided = Row(Steering.Unguided, HandSkill.Practised, 1);
        Assert.InRange(guided.LostPercent, 0.5, 0.6 * unguided.LostPercent);
        Assert.InRange(guided.InMostPercent!.Value, 80.0, 100.0);
    }

    [Fact]
    public void The_honest_world_is_the_harder_one()
    {
        Trial today = new(Steering.Perfect, HandSkill.Novice, WorldModel.Today, 30, 1001);
        double lost = ClosedLoop.Fly(today).LostShare;
        Assert.True(ClosedLoop.Fly(today with { World = WorldModel.Honest }).LostShare > lost + 0.05);
    }

    [Fact]
    public void A_run_repeats_exactly()
    {
        Trial trial = new(Steering.Guided, HandSkill.Novice, WorldModel.Honest, 45, 1001);
        PassScore one = ClosedLoop.Fly(trial);
        PassScore two = ClosedLoop.Fly(trial);
        Assert.Equal(one.Errors.AsSpan(), two.Errors.AsSpan());
        Assert.Equal(one with { Errors = [] }, two with { Errors = [] });
    }

    private static GuidanceRow Row(Steering steering, HandSkill skill, int seeds)
    {
        ImmutableArray<Trial> trials =
            [.. from pass in ClosedLoop.Elevations from i in Enumerable.Range(0, seeds) select new Trial(steering, skill, WorldModel.Today, pass, 1000 + (ulong)i)];
        return GuidanceTrials.Row("", trials, [.. trials.Select(ClosedLoop.Fly)]);
    }

    private static SimulatedReceiver Receiver(CircularPass pass, ulong seed) => new(pass, new Beam(Angle.FromDegrees(15.4)), 0.8, seed);
}
