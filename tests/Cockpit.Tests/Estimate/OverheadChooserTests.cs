using Cockpit.Core.Aim;
using Cockpit.Core.Estimate;
using Cockpit.Core.Link;
using Cockpit.Core.Sky;
using Cockpit.Core.Steering;
using Cockpit.Core.Units;
using Cockpit.Session.Rehearsal;

namespace Cockpit.Tests.Estimate;

/// <summary>The ways past the top, against a count of single flights that shares nothing with the chooser but the hand and the level law.</summary>
public sealed class OverheadChooserTests
{
    private const double Width = 15.4;
    private static readonly DateTimeOffset Rise = new(2026, 11, 25, 10, 15, 0, TimeSpan.Zero);

    [Theory]
    [InlineData(75, false)]
    [InlineData(75, true)]
    [InlineData(80, false)]
    [InlineData(80, true)]
    [InlineData(88, false)]
    [InlineData(88, true)]
    public void Every_way_loses_what_single_flights_lose_on_average(double highest, bool practised)
    {
        HandModel hand = practised ? HandModel.Practised : HandModel.Novice;
        (OverheadChoice choice, FlownTop flown) = Of(highest, hand);
        foreach (OverheadCost cost in new[] { choice.Turn, choice.Wait, choice.Over! })
        {
            double counted = flown.Lost(cost.Plan);
            Assert.InRange(cost.LinesLost, (0.8 * counted) - 1.0, (1.2 * counted) + 1.0);
        }
    }

    [Theory]
    [InlineData(75)]
    [InlineData(80)]
    [InlineData(88)]
    public void No_flight_by_another_moment_or_another_way_loses_less_than_the_choice(double highest)
    {
        (OverheadChoice choice, FlownTop flown) = Of(highest, HandModel.Novice);
        double best = flown.Lost(choice.Best.Plan);
        foreach (OverheadCost cost in new[] { choice.Turn, choice.Wait, choice.Over! })
        {
            Assert.True(choice.Best.LinesLost <= cost.LinesLost);
            for (double later = -6.0; later <= 6.0; later += 3.0)
            {
                OverheadPlan other = cost.Plan with { TurnsAt = cost.Plan.TurnsAt + later, Meets = cost.Plan.Meets + (cost.Plan.Way == OverheadWay.Turn ? 0.0 : later) };
                Assert.True(flown.Lost(other) > best - Math.Max(1.0, 0.1 * best), $"{other}: {flown.Lost(other):0.0} against {best:0.0}");
            }
        }
    }

    [Fact]
    public void The_turn_grows_with_the_height_of_the_pass_and_only_near_the_zenith_is_over_the_top_a_way()
    {
        OverheadChoice low = Of(75, HandModel.Novice).Choice;
        OverheadChoice high = Of(88, HandModel.Novice).Choice;
        Assert.InRange(Math.Abs(low.Turn.Pan), 28.0, 45.0);
        Assert.InRange(Math.Abs(high.Turn.Pan), 115.0, 145.0);
        Assert.True(low.Over!.LinesLost > low.Best.LinesLost + 5.0, $"{low}");
        Assert.InRange(high.Over!.LinesLost, 0.0, high.Best.LinesLost + 3.0);
        Assert.True(Math.Abs(high.Over.Pan) < Math.Abs(high.Turn.Pan), $"{high}");
    }

    [Fact]
    public void Turning_is_done_about_the_culmination_and_waiting_stands_through_it()
    {
        OverheadChoice choice = Of(88, HandModel.Practised).Choice;
        Assert.InRange(choice.Turn.Plan.TurnsAt, choice.Culminates - 9.0, choice.Culminates + 4.0);
        Assert.InRange(choice.Wait.Plan.TurnsAt, choice.Turn.Plan.Meets, choice.Culminates + 40.0);
        Assert.InRange(choice.Wait.Plan.Elevation, choice.Turn.Plan.Elevation, 90.0);
    }

    [Fact]
    public void A_head_that_cannot_tilt_over_the_top_has_two_ways()
    {
        (SkyTable sky, double top) = Table(88);
        OverheadChoice choice = OverheadChooser.Choose(sky, HandModel.Novice, Width, top, overTheTop: false);
        Assert.Null(choice.Over);
        Assert.NotEqual(OverheadWay.OverTheTop, choice.Best.Plan.Way);
        Assert.Equal(Math.Min(choice.Turn.LinesLost, choice.Wait.LinesLost), choice.Best.LinesLost);
    }

    private static (OverheadChoice Choice, FlownTop Flown) Of(double highest, HandModel hand)
    {
        (SkyTable sky, double top) = Table(highest);
        OverheadChoice choice = OverheadChooser.Choose(sky, hand, Width, top, overTheTop: true);
        return (choice, new FlownTop(sky, hand, Width, choice.Turn.Plan));
    }

    private static (SkyTable Sky, double Top) Table(double highest)
    {
        CircularPass pass = new(Rise, Angle.FromDegrees(highest));
        LinkModel link = new() { Dish = new ReceivingDish { DiameterMetres = 0.8, PointingError = Angle.Zero } };
        SkyTable sky = SkyTable.Of(pass, Rise, 0.0, pass.Duration.TotalSeconds, (LookAngles look) => link.ExpectedMargin(look.Elevation, look.RangeKm).Value);
        return (sky, (pass.Pass.Tca.Utc - Rise).TotalSeconds);
    }
}
