using Cockpit.Core.Aim;
using Cockpit.Core.Units;
using Cockpit.Session.Events;
using Cockpit.Session.Rehearsal;
using Cockpit.Session.State;

namespace Cockpit.Tests.Computers;

public sealed class PursuitTests
{
    [Fact]
    public void Before_the_pass_the_dish_is_set_up_towards_its_begin()
    {
        VirtualPass pass = new VirtualPass(startsAfterAos: -200).Go(1);
        Assert.Equal(AimWord.Point, pass.Aim.Word);
        Assert.Equal(AimReason.SetUp, pass.Aim.Reason);
        LookAnglesAreNear(pass.Sky.Pass.Aos.Look.Azimuth, pass.Sky.Pass.Aos.Look.Elevation, pass.Aim.Target!);
        Assert.Equal(PointingOrigin.Plan, pass.Aim.Dish!.Origin);
        Assert.Null(pass.Aim.NudgeAt);
    }

    [Fact]
    public void From_the_first_second_of_the_pass_there_is_a_direction_without_any_key()
    {
        VirtualPass pass = new(highest: 60, startsAfterAos: -60);
        int empty = 0;
        int moments = 0;
        while (pass.AfterAos < 600)
        {
            pass.Go(0.5);
            if (pass.AfterAos > 0.0)
            {
                moments++;
                empty += pass.Aim.Nudge is null || pass.Aim.NudgeAt is null ? 1 : 0;
            }
        }

        // A second after a move nothing is planned yet.
        Assert.InRange((double)empty / moments, 0.0, 0.15);
    }

    [Fact]
    public void The_nudge_is_the_great_circle_from_the_believed_direction_to_the_target()
    {
        VirtualPass pass = Called();
        int calls = 0;
        while (pass.AfterAos < 200)
        {
            pass.Go(0.3);
            if (pass.Aim is { Nudge: { } nudge, Dish: { } dish, Target: { } target })
            {
                calls += pass.Aim.Word == AimWord.Move ? 1 : 0;
                Assert.Equal(AimErrors.Separation(dish.Azimuth, dish.Elevation, target.Azimuth, target.Elevation).Degrees, nudge.Total.Degrees, 1e-9);
                Assert.Equal((target.Azimuth - dish.Azimuth).WrappedToHalfTurn().Degrees, nudge.Pan.Degrees, 1e-9);
                Assert.Equal((target.Elevation - dish.Elevation).Degrees, nudge.Tilt.Degrees, 1e-9);
            }
        }

        Assert.True(calls > 0);
    }

    [Fact]
    public void A_call_keeps_its_moment_and_its_amounts_until_it_is_over_and_the_next_has_another()
    {
        VirtualPass pass = Called();
        DateTimeOffset? at = pass.Aim.NudgeAt;
        AimError nudge = pass.Aim.Nudge!.Value;
        Assert.InRange((pass.Now - at!.Value).TotalSeconds, 0.0, 0.6);
        while (pass.Aim.Word == AimWord.Move && pass.Aim.NudgeAt == at)
        {
            Assert.Equal(nudge.Pan.Degrees, pass.Aim.Nudge!.Value.Pan.Degrees, 1e-9);
            pass.Go(0.1);
        }

        pass.ToWord(AimWord.Move, 200);
        Assert.True(pass.Aim.NudgeAt > at);
        Assert.InRange((pass.Aim.NudgeAt!.Value - at.Value).TotalSeconds, 1.4, 200.0);
    }

    [Fact]
    public void The_amounts_of_a_call_are_whole_degrees_on_the_scales_of_the_mount()
    {
        AimError nudge = Called().Aim.Nudge!.Value;
        Assert.Equal(Math.Round(nudge.Pan.Degrees), nudge.Pan.Degrees, 1e-6);
        Assert.Equal(Math.Round(nudge.Tilt.Degrees), nudge.Tilt.Degrees, 1e-6);
    }

    [Fact]
    public void The_moved_key_ends_the_call_at_once_and_the_belief_follows()
    {
        VirtualPass pass = Called();
        Hold target = pass.Aim.Target!;
        double before = AimErrors.Separation(pass.Aim.Dish!.Azimuth, pass.Aim.Dish.Elevation, target.Azimuth, target.Elevation).Degrees;
        pass.Go(0.8).Press(OperatorKey.Moved);
        Assert.NotEqual(AimWord.Move, pass.Aim.Word);
        double after = AimErrors.Separation(pass.Aim.Dish!.Azimuth, pass.Aim.Dish.Elevation, target.Azimuth, target.Elevation).Degrees;
        Assert.True(after < 0.7 * before, $"{after:0.0} of {before:0.0} degrees are left");
    }

    [Fact]
    public void Without_a_key_a_call_ends_by_itself()
    {
        VirtualPass pass = Called().Go(0.5);
        DateTimeOffset? at = pass.Aim.NudgeAt;
        pass.GoUntil(aim => aim.Word != AimWord.Move || aim.NudgeAt != at, 8);
        Assert.True(pass.Aim.Word != AimWord.Move || pass.Aim.NudgeAt > at);
    }

    [Fact]
    public void Not_moved_takes_the_last_nudge_back()
    {
        VirtualPass pass = Called();
        Pointing before = pass.Aim.Dish!;
        pass.Go(0.5).Press(OperatorKey.Moved);
        pass.Press(OperatorKey.NotMoved);
        Assert.InRange(AimErrors.Separation(before.Azimuth, before.Elevation, pass.Aim.Dish!.Azimuth, pass.Aim.Dish.Elevation).Degrees, 0.0, 2.0);
        pass.Press(OperatorKey.NotMoved);
        Assert.Equal("There is no nudge to take back.", pass.Notice);
    }

    [Fact]
    public void A_correction_of_the_clock_moves_the_pass_and_not_the_ages()
    {
        VirtualPass pass = new VirtualPass(startsAfterAos: -100).Go(200);
        pass.Press(OperatorKey.Peaked);
        pass.Go(2);
        DateTimeOffset utc = pass.Now;
        pass.CorrectClock(-30.0);
        pass.Go(0.5);
        Assert.Equal(2.5, pass.Aim.SinceMark!.Value.TotalSeconds, 1e-6);
        Assert.True(pass.Now < utc);
        Assert.NotNull(pass.Aim.Dish);
    }

    [Fact]
    public void The_search_key_has_one_switch_that_goes_off_by_itself_and_on_again()
    {
        VirtualPass pass = new VirtualPass(startsAfterAos: 150).Go(8);
        pass.Press(OperatorKey.Search);
        Assert.True(pass.Aim.PeakAsked);
        pass.Go(31);
        Assert.False(pass.Aim.PeakAsked);
        pass.Press(OperatorKey.Search);
        Assert.True(pass.Aim.PeakAsked);
        pass.Press(OperatorKey.Search);
        Assert.False(pass.Aim.PeakAsked);
        pass.Press(OperatorKey.Search);
        pass.Press(OperatorKey.Peaked);
        Assert.False(pass.Aim.PeakAsked);
    }

    [Fact]
    public void A_mark_far_under_the_best_is_refused_with_a_sentence_and_taken_when_pressed_again()
    {
        VirtualPass pass = new VirtualPass(startsAfterAos: -100).Go(250);
        pass.Press(OperatorKey.Peaked);
        pass.Go(5);
        pass.FadeDb = 5.0;
        pass.Go(1);
        TimeSpan before = pass.Aim.SinceMark!.Value;
        pass.Press(OperatorKey.Peaked);
        Assert.Equal(before, pass.Aim.SinceMark);
        Assert.Matches("^Mark not taken: 5\\.\\d dB under the best; peak again, or press again at once to insist\\.$", pass.Notice);
        pass.Go(1).Press(OperatorKey.Peaked);
        Assert.Equal(TimeSpan.Zero, pass.Aim.SinceMark);
        Assert.Null(pass.Notice);
    }

    [Fact]
    public void The_origin_of_the_direction_is_the_mark_until_the_next_nudge()
    {
        VirtualPass pass = Called();
        pass.Press(OperatorKey.Moved);
        Assert.Equal(PointingOrigin.Level, pass.Aim.Dish!.Origin);
        pass.Go(1).Press(OperatorKey.Peaked);
        Assert.Equal(PointingOrigin.Mark, pass.Aim.Dish!.Origin);
        pass.ToWord(AimWord.Move, 200);
        Assert.Equal(PointingOrigin.MarkAndNudges, pass.Aim.Dish!.Origin);
    }

    [Fact]
    public void A_mark_before_the_pass_is_not_taken()
    {
        VirtualPass pass = new VirtualPass().Go(1);
        pass.Press(OperatorKey.Peaked);
        Assert.Null(pass.Aim.SinceMark);
        Assert.Equal("Mark not taken: the satellite is not above the horizon.", pass.Notice);
        pass.Go(9);
        Assert.Null(pass.Notice);
    }

    [Fact]
    public void A_lost_signal_is_searched_for_with_calls_that_have_a_size()
    {
        VirtualPass pass = new VirtualPass(startsAfterAos: -100).Go(250);
        pass.Dish = (pass.Look.Azimuth.Degrees + 60, pass.Look.Elevation.Degrees);
        bool searched = false;
        int calls = 0;
        DateTimeOffset? last = null;
        for (int i = 0; i < 300; i++)
        {
            pass.Go(0.1);
            searched |= pass.Aim.Word == AimWord.Search || pass.Aim.Reason == AimReason.Search;
            if (pass.Aim is { Word: AimWord.Move } call && call.NudgeAt != last)
            {
                last = call.NudgeAt;
                calls++;
                Assert.NotNull(call.Nudge);
            }
        }

        Assert.True(searched);
        Assert.InRange(calls, 3, 15);
    }

    // In the field the amplifier usually gets its power after the program runs: the noise comes up by twenty decibels, before the pass or in it.
    [Theory]
    [InlineData(10, 160)]
    [InlineData(200, 0)]
    public void An_amplifier_that_is_switched_on_late_does_not_hide_a_lost_signal(double deafFor, double then)
    {
        VirtualPass pass = new(startsAfterAos: -140) { Power = -80 };
        pass.Go(deafFor).Power = -60;
        pass.Go(then).Power = -50;
        pass.Go(20);
        Assert.NotEqual(AimReason.Search, pass.Aim.Reason);
        pass.Power = -60;
        bool searched = false;
        for (int i = 0; i < 150 && !searched; i++)
        {
            pass.Go(0.1);
            searched = pass.Aim.Word == AimWord.Search || pass.Aim.Reason == AimReason.Search;
        }

        Assert.True(searched);
    }

    [Fact]
    public void A_silent_feed_is_no_lost_signal_but_goes_by_plan_and_says_for_how_long()
    {
        VirtualPass pass = new VirtualPass(startsAfterAos: -100).Go(250);
        pass.FeedWorks = false;
        for (int i = 0; i < 200; i++)
        {
            pass.Go(0.1);
            Assert.NotEqual(AimWord.Search, pass.Aim.Word);
        }

        Assert.False(pass.Link.IsFresh);
        Assert.InRange(pass.Aim.ByPlan!.SilentFor!.Value.TotalSeconds, 19.0, 21.0);
        Assert.Null(pass.Aim.Fine);
        pass.FeedWorks = true;
        pass.Go(1.0);
        Assert.Null(pass.Aim.ByPlan);
    }

    [Fact]
    public void Without_a_feed_and_keys_the_plan_of_the_pass_is_walked_to_its_end()
    {
        VirtualPass pass = new VirtualPass(highest: 45) { FeedWorks = false };
        int calls = 0;
        DateTimeOffset? last = null;
        while (pass.Aim.Word != AimWord.Done)
        {
            pass.Go(0.1);
            calls += pass.Aim.Word == AimWord.Move && pass.Aim.NudgeAt != last ? 1 : 0;
            last = pass.Aim.Word == AimWord.Move ? pass.Aim.NudgeAt : last;
            Assert.True(pass.AfterAos < 800);
            Assert.True(pass.Aim.Word is not AimWord.Search);
        }

        // 18 holds of 1 dB in the best plan.
        Assert.InRange(calls, 14, 30);
        Assert.Null(pass.Aim.Target);
        Assert.Null(pass.Aim.NudgeAt);
    }

    [Fact]
    public void A_pass_near_the_zenith_announces_its_big_turn_minutes_before()
    {
        VirtualPass high = new VirtualPass(highest: 88, startsAfterAos: -30).Go(60);
        Assert.InRange(Math.Abs(high.Aim.Overhead!.Pan.Degrees), 100.0, 180.0);
        Assert.InRange((high.Aim.Overhead.AtUtc - high.Now).TotalSeconds, 250.0, 450.0);
        Assert.Null(high.Aim.Overhead.OverLines);
        Assert.Null(new VirtualPass(highest: 60, startsAfterAos: -30).Go(60).Aim.Overhead);
        Assert.Null(new GuidanceRun(high.Sky, VirtualPass.Settings with { Mount = Core.Aim.Mount.Free }, VirtualPass.Aos).Snapshot.Aim.Overhead);
        Assert.NotNull(new GuidanceRun(high.Sky, VirtualPass.Settings with { OverTheTop = true }, VirtualPass.Aos).Snapshot.Aim.Overhead!.OverLines);
    }

    [Fact]
    public void The_fine_line_tells_the_best_of_late_and_now()
    {
        VirtualPass pass = new VirtualPass(startsAfterAos: -100).Go(250);
        pass.FadeDb = 3.0;
        pass.Go(2);
        Assert.InRange(pass.Aim.Fine!.BestDb - pass.Aim.Fine.NowDb, 2.5, 3.5);
        Assert.InRange(pass.Aim.Missing!.Value.Value, 1.0, 5.0);
    }

    [Fact]
    public void The_same_events_give_the_same_moments()
    {
        Assert.Equal(Digest(), Digest());

        static string Digest()
        {
            VirtualPass pass = new(highest: 88, startsAfterAos: 250);
            SnapshotDigest digest = new();
            for (int i = 0; i < 200; i++)
            {
                pass.Go(0.1);
                if (i % 60 == 20)
                {
                    pass.Press(i % 120 == 20 ? OperatorKey.Peaked : OperatorKey.Moved);
                }

                if (i % 20 == 0)
                {
                    digest.Add(pass.Snapshot);
                }
            }

            return digest.Current();
        }
    }

    /// <summary>A pass with a dish that stands still, at the moment of a call.</summary>
    private static VirtualPass Called()
    {
        VirtualPass pass = new(startsAfterAos: -60);
        pass.Dish = (pass.Sky.Pass.Aos.Look.Azimuth.Degrees, pass.Sky.Pass.Aos.Look.Elevation.Degrees);
        pass.Go(61);
        return pass.ToWord(AimWord.Move, 200);
    }

    private static void LookAnglesAreNear(Angle azimuth, Angle elevation, Hold hold) =>
        Assert.InRange(AimErrors.Separation(azimuth, elevation, hold.Azimuth, hold.Elevation).Degrees, 0.0, 1.0);
}
