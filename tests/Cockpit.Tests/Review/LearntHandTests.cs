using System.Collections.Immutable;
using Cockpit.Session.Rehearsal;
using Cockpit.Session.Review;

namespace Cockpit.Tests.Review;

/// <summary>What passes tell about a hand; on simulated hands it is <c>cockpit check guidance --learn</c>.</summary>
public sealed class LearntHandTests
{
    private static readonly DateTimeOffset Start = new(2026, 11, 1, 18, 0, 0, TimeSpan.Zero);

    // key = reaction + 0.35 s + 0.2 s for each doubling of the size over 1.5 degrees, as the moves of the simulated hands.
    private static HandOfPass Pass(double reaction, Spread? amount) => new(
        [
            .. Enumerable.Range(1, 8).Select(i => new ReactionPoint(
                Start, reaction, reaction + 0.35 + (0.2 * Math.Log2(1.0 + i)) + (i % 2 == 0 ? 0.1 : -0.1), 1.5 * i, 1.5 * i)),
        ],
        amount);

    [Fact]
    public void Reaction_and_amount_of_passes_are_put_together_with_their_errors()
    {
        var learnt = LearntHand.Of([Pass(1.2, new Spread(0.8, 0.05, 10)), Pass(1.2, new Spread(0.9, 0.05, 12)), Pass(1.2, null)]);
        Assert.Equal(1.2, learnt.ReactionSeconds!.Value.Value, 0.12);
        Assert.Equal(24, learnt.ReactionSeconds!.Value.Count);
        Assert.Equal(0.85, learnt.Amount!.Value.Value, 1e-9);
        Assert.Equal((22, 3), (learnt.Amount!.Value.Count, learnt.Passes));
        Assert.Equal((learnt.Settings()!.Amount, learnt.Settings()!.Passes), (0.85, 3));
    }

    [Fact]
    public void A_large_turn_says_nothing_about_the_reaction()
    {
        ImmutableArray<ReactionPoint> usual = Pass(1.0, null).Keys;
        var slow = new ReactionPoint(Start, 9.0, 9.0, 10.0, 80.0);
        Assert.Equal(LearntHand.Of([new(usual, null)]).ReactionSeconds, LearntHand.Of([new([.. usual, slow, slow, slow, slow, slow, slow, slow], null)]).ReactionSeconds);
    }

    [Fact]
    public void Too_little_is_nothing()
    {
        Assert.Null(LearntHand.Of([]).Settings());
        Assert.Null(LearntHand.Of([new([.. Pass(1.0, null).Keys.Take(3)], new Spread(0.8, 0.02, 9))]).Settings());
    }

    [Fact]
    public void A_difference_of_losses_is_that_of_the_same_passes_with_its_interval()
    {
        PassScore Score(double lost) => new(lost, 0, 0, 0, 0, 0, 0, 0, 0, []);
        ImmutableArray<PassScore> first = [.. Enumerable.Range(0, 20).Select(i => Score(0.01 * i))];
        ImmutableArray<PassScore> second = [.. Enumerable.Range(0, 20).Select(i => Score((0.01 * i) - (i % 2 == 0 ? 0.01 : 0.03)))];
        var less = LossDifference.Of(first, second);
        Assert.Equal(2.0, less.Mean, 1e-9);
        Assert.InRange(less.Low, 1.3, 1.9);
        Assert.InRange(less.High, 2.1, 2.7);
    }
}
