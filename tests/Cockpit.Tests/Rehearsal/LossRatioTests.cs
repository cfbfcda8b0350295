using System.Collections.Immutable;
using Cockpit.Session.Rehearsal;

namespace Cockpit.Tests.Rehearsal;

public sealed class LossRatioTests
{
    [Fact]
    public void A_hand_that_loses_a_fifth_over_perfect_pointing_has_the_ratio_one_fifth_and_an_interval_around_it()
    {
        ImmutableArray<PassScore> perfect = Scores(i => 0.01);
        LossRatio ratio = LossRatio.Of(perfect, Scores(i => 0.21 + (0.001 * i)), Scores(i => 0.05 + (0.0002 * i)));
        Assert.Equal(0.2, ratio.Ratio, 3);
        Assert.InRange(ratio.Low, 0.19, ratio.Ratio);
        Assert.InRange(ratio.High, ratio.Ratio, 0.21);
    }

    [Fact]
    public void The_interval_is_wider_where_passes_differ_more_and_the_same_for_the_same_passes()
    {
        ImmutableArray<PassScore> perfect = Scores(i => 0.0);
        ImmutableArray<PassScore> unguided = Scores(i => 0.2);
        LossRatio even = LossRatio.Of(perfect, unguided, Scores(i => 0.04));
        LossRatio uneven = LossRatio.Of(perfect, unguided, Scores(i => i % 4 == 0 ? 0.16 : 0.0));
        Assert.Equal(even.Ratio, uneven.Ratio, 9);
        Assert.True(uneven.High - uneven.Low > even.High - even.Low + 0.05);
        Assert.Equal(uneven, LossRatio.Of(perfect, unguided, Scores(i => i % 4 == 0 ? 0.16 : 0.0)));
    }

    private static ImmutableArray<PassScore> Scores(Func<int, double> lost) =>
        [.. Enumerable.Range(0, 40).Select(i => new PassScore(lost(i), 0.0, 0.0, 0.0, 0, 0, 0, 0, 0, []))];
}
