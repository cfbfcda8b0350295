using Cockpit.Core.Aim;
using Cockpit.Core.Estimate;
using Cockpit.Core.Steering;

namespace Cockpit.Tests.Estimate;

public sealed class DishEstimateTests
{
    [Fact]
    public void A_tick_allocates_nothing()
    {
        new ExactHand(seed: 3).Fly(-60.0, 200.0);
        ExactHand pass = new(seed: 4);
        pass.Fly(-60.0, -30.0);
        DishEstimate estimate = pass.Estimate;
        Steersman steersman = pass.Steersman;
        double now = -30.0;
        long before = GC.GetAllocatedBytesForCurrentThread();
        for (int i = 0; i < 2000; i++)
        {
            now += 0.1;
            estimate.Level(LevelKind.SignalToNoise, 3.0 + (i % 7 * 0.5));
            estimate.Lines(i % 3 == 0 ? 0.0 : 1.0);
            if (estimate.Advance(now))
            {
                steersman.Advance();
            }

            if (i % 50 == 49)
            {
                steersman.Done();
            }
        }

        Assert.True(estimate.Started && !double.IsNaN(estimate.Belief.Azimuth));
        Assert.Equal(0, GC.GetAllocatedBytesForCurrentThread() - before);
    }

    [Fact]
    public void The_same_levels_give_the_same_belief_to_the_last_bit()
    {
        ExactHand one = new(seed: 5);
        ExactHand other = new(seed: 5);
        one.Fly(-60.0, 150.0);
        other.Fly(-60.0, 150.0);
        Assert.Equal(one.Estimate.Belief, other.Estimate.Belief);
        Assert.Equal(one.Calls, other.Calls);
    }

    [Theory]
    [InlineData(30.0, Mount.PanTilt)]
    [InlineData(60.0, Mount.PanTilt)]
    public void A_hand_that_makes_every_move_exactly_keeps_the_satellite(double highest, Mount mount)
    {
        ExactHand pass = new(highest, seed: 6, mount);
        pass.Fly(-90.0, pass.Duration);
        Assert.InRange(pass.Lost / (10.0 * pass.Duration), 0.0, 0.02);
        Assert.InRange(pass.Calls, 8, 80);
    }

    [Fact]
    public void A_wrong_set_up_is_found_out_from_the_level_alone()
    {
        ExactHand pass = new(seed: 7);
        pass.Azimuth += 9.0;
        pass.Elevation += 3.0;
        pass.Fly(-90.0, 60.0);
        Assert.InRange(pass.OffBelief(), 0.0, 5.0);
        Assert.InRange(pass.OffSatellite(60.0), 0.0, 6.0);
    }

    [Fact]
    public void The_region_holds_the_dish_about_as_often_as_it_says()
    {
        int inHalf = 0;
        int inMost = 0;
        int all = 0;
        for (ulong seed = 20; seed < 23; seed++)
        {
            ExactHand pass = new(seed: seed);
            pass.Azimuth += seed % 2 == 0 ? 4.0 : -4.0;
            for (double now = -60.0; now < 200.0; now += 0.1)
            {
                pass.Step(now);
                if (now > 0.0)
                {
                    all++;
                    inHalf += pass.OffBelief() <= pass.Estimate.Belief.R50 ? 1 : 0;
                    inMost += pass.OffBelief() <= pass.Estimate.Belief.R95 ? 1 : 0;
                }
            }
        }

        // Three passes, whose errors last for minutes: the closed loop counts many.
        Assert.InRange((double)inHalf / all, 0.3, 1.0);
        Assert.InRange((double)inMost / all, 0.85, 1.0);
    }

    [Fact]
    public void A_mark_narrows_the_belief_towards_the_satellite()
    {
        ExactHand pass = new(seed: 8, hand: HandModel.Novice) { Follows = false, Silent = (-1000.0, 1000.0) };
        pass.Fly(-30.0, -20.0);
        double before = pass.Estimate.Belief.InBeam;
        pass.Estimate.Mark();
        Assert.True(pass.Estimate.Belief.InBeam > before + 0.1);
    }

    [Fact]
    public void A_move_that_is_taken_back_leaves_the_belief_where_it_was()
    {
        ExactHand pass = new(seed: 9) { Follows = false };
        pass.Fly(-30.0, -20.0);
        DishBelief before = pass.Estimate.Belief;
        pass.Estimate.Call(20.0, 0.0);
        pass.Estimate.Confirm();
        Assert.InRange(Turn(before.Azimuth, pass.Estimate.Belief.Azimuth), 12.0, 28.0);
        pass.Estimate.TakeBack();
        Assert.InRange(Turn(before.Azimuth, pass.Estimate.Belief.Azimuth), -1.5, 1.5);
    }

    [Fact]
    public void Power_that_holds_the_noise_is_as_good_as_a_ratio()
    {
        ExactHand pass = new(seed: 11);
        DishEstimate estimate = pass.Estimate;
        for (double now = -200.0; now < -120.0; now += 0.1)
        {
            estimate.Level(LevelKind.Power, -68.0);
            estimate.Advance(now);
        }

        // 8 dB of signal over the noise are 3 dB over a threshold of 5 dB.
        double power = -68.0 + (10.0 * Math.Log10(1.0 + Math.Pow(10.0, 0.8)));
        Assert.Equal(power, estimate.Reading(3.0), 6);
    }

    private static double Turn(double from, double to) => to - from - (360.0 * Math.Round((to - from) / 360.0));
}
