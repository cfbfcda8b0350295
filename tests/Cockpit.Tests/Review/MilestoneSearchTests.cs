using System.Collections.Immutable;
using Cockpit.Session.Review;

namespace Cockpit.Tests.Review;

public sealed class MilestoneSearchTests
{
    private static readonly ImmutableArray<Milestone> Stops =
        [At(10, MilestoneKind.Mark), At(20, MilestoneKind.Gap), At(20.5, MilestoneKind.Nudge), At(40, MilestoneKind.Mark)];

    private static Milestone At(double seconds, MilestoneKind kind) => new(TimeSpan.FromSeconds(seconds), TimeSpan.FromSeconds(seconds), kind, "words");

    [Theory]
    [InlineData(0, null, 10.0)]
    [InlineData(10, null, 20.0)]
    [InlineData(20, null, 20.5)]
    [InlineData(10, MilestoneKind.Mark, 40.0)]
    [InlineData(0, MilestoneKind.Nudge, 20.5)]
    public void Next_is_the_first_one_behind_the_position(double position, MilestoneKind? only, double at) =>
        Assert.Equal(at, MilestoneSearch.After(Stops, TimeSpan.FromSeconds(position), only)?.At.TotalSeconds);

    [Theory]
    [InlineData(40, null)]
    [InlineData(20, MilestoneKind.Gap)]
    [InlineData(0, MilestoneKind.Alarm)]
    public void There_may_be_no_next_one(double position, MilestoneKind? only) =>
        Assert.Null(MilestoneSearch.After(Stops, TimeSpan.FromSeconds(position), only));

    [Theory]
    [InlineData(20.5, false, 20.0)]
    [InlineData(20.0, false, 10.0)]
    [InlineData(21.0, true, 10.0)]
    [InlineData(22.1, true, 20.5)]
    public void A_running_replay_goes_back_over_the_one_that_was_just_passed(double position, bool running, double at) =>
        Assert.Equal(at, MilestoneSearch.Before(Stops, TimeSpan.FromSeconds(position), null, running)?.At.TotalSeconds);

    [Fact]
    public void Going_back_twice_in_a_running_replay_comes_to_two_of_them()
    {
        Milestone? first = MilestoneSearch.Before(Stops, TimeSpan.FromSeconds(45), MilestoneKind.Mark, running: true);
        Milestone? second = MilestoneSearch.Before(Stops, first!.At + TimeSpan.FromSeconds(0.8), MilestoneKind.Mark, running: true);
        Assert.Equal((40.0, 10.0), (first.At.TotalSeconds, second!.At.TotalSeconds));
    }
}
