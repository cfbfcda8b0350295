using Cockpit.Core.Estimate;
using Cockpit.Core.Steering;

namespace Cockpit.Tests.Estimate;

public sealed class SteersmanTests
{
    [Fact]
    public void Without_a_level_the_moves_follow_the_plan()
    {
        ExactHand pass = new(highest: 60.0, seed: 1) { Silent = (-1000.0, 10000.0) };
        double worst = 0.0;
        for (double now = -60.0; now < pass.Duration - 5.0; now += 0.1)
        {
            pass.Step(now);
            worst = now > 0.0 ? Math.Max(worst, pass.OffSatellite(now)) : worst;
            Assert.True(pass.Steersman.Open is null or { Reason: CallReason.Plan });
        }

        Assert.True(pass.Steersman.ByPlan);
        Assert.InRange(worst, 1.0, 8.0);
        Assert.InRange(pass.Calls, 8, 40);
    }

    [Fact]
    public void A_silent_feed_in_mid_pass_changes_to_the_plan_and_back()
    {
        ExactHand pass = new(highest: 60.0, seed: 2) { Silent = (300.0, 330.0) };
        pass.Fly(-60.0, 310.0);
        Assert.True(pass.Steersman.ByPlan);
        pass.Fly(310.0, 335.0);
        Assert.False(pass.Steersman.ByPlan);
        Assert.InRange(pass.OffSatellite(335.0), 0.0, 10.0);
    }

    [Fact]
    public void The_move_to_come_is_known_long_before_it_is_called()
    {
        ExactHand pass = new(highest: 45.0, seed: 3);
        pass.Fly(-60.0, 150.0);
        double announced = 0.0;
        for (double now = 150.0; now < 400.0; now += 0.1)
        {
            bool open = pass.Steersman.Open is not null;
            Forecast? coming = pass.Steersman.Coming;
            pass.Step(now);
            if (!open && pass.Steersman.Open is { } call && coming is { } expected)
            {
                announced++;
                Assert.InRange(call.At - expected.At, -6.0, 6.0);
            }
        }

        Assert.InRange(announced, 2.0, 40.0);
    }

    [Fact]
    public void A_lost_signal_is_searched_for_with_moves_that_have_a_size()
    {
        ExactHand pass = new(highest: 45.0, seed: 4);
        pass.Fly(-60.0, 200.0);

        // Someone stumbles over the tripod.
        pass.Azimuth += 35.0;
        bool noticed = false;
        double found = double.NaN;
        for (double now = 200.0; now < 260.0 && double.IsNaN(found); now += 0.1)
        {
            pass.Step(now);
            noticed |= pass.Steersman.Lost || pass.Steersman.Open is { Move.Kind: MoveKind.Compass };
            found = now > 210.0 && pass.OffSatellite(now) < 6.0 ? now : found;
        }

        Assert.True(noticed, "nobody noticed");
        Assert.InRange(found, 205.0, 245.0);
    }

    [Theory]
    [InlineData(18.0)]
    [InlineData(-20.0)]
    public void A_compass_that_is_far_off_is_found_out_by_looks_in_order(double error)
    {
        ExactHand pass = new(highest: 60.0, seed: 7, hand: HandModel.Novice) { CompassError = error };
        pass.Azimuth += error;
        bool asked = false;
        double found = double.NaN;
        for (double now = -60.0; now < 240.0 && double.IsNaN(found); now += 0.1)
        {
            pass.Step(now);
            asked |= pass.Steersman.Open is { Move.Kind: MoveKind.Compass };
            found = now > 0.0 && pass.OffSatellite(now) < 5.0 ? now : found;
        }

        Assert.InRange(found, 0.0, 150.0);
        Assert.True(asked || found < 20.0);
    }

    [Fact]
    public void A_big_turn_is_given_the_time_that_it_takes()
    {
        ExactHand pass = new(highest: 88.0, seed: 5);
        Call? before = null;
        double shortest = double.PositiveInfinity;
        for (double now = -60.0; now < pass.Duration; now += 0.1)
        {
            pass.Step(now);
            if (pass.Steersman.Open is { } call && call.At != before?.At)
            {
                if (before is { } last && Math.Abs(last.Move.First) > 60.0)
                {
                    shortest = Math.Min(shortest, call.At - last.At);
                }

                before = call;
            }
        }

        Assert.InRange(shortest, 1.5, 1000.0);
        Assert.InRange(pass.Lost / (10.0 * pass.Duration), 0.0, 0.03);
    }

    [Fact]
    public void A_moved_key_without_a_call_is_refused()
    {
        ExactHand pass = new(seed: 6);
        pass.Fly(-60.0, -55.0);
        Assert.False(pass.Steersman.Done());
    }
}
