using System.Collections.Immutable;
using Cockpit.Core.Verdicts;
using CsCheck;

namespace Cockpit.Tests.Passes;

/// <summary>One dish for several passes.</summary>
public sealed class DishSharingTests
{
    private static readonly DateTimeOffset Start = new(2026, 11, 26, 19, 0, 0, TimeSpan.Zero);

    private static DishClaim Claim(int start, params double[] margins) => new(Start.AddSeconds(start), [.. margins]);

    private static DishClaim Even(int start, int seconds) => new(Start.AddSeconds(start), [.. Enumerable.Repeat(5.0, seconds)]);

    private static TimeSpan Seconds(double seconds) => TimeSpan.FromSeconds(seconds);

    [Fact]
    public void A_pass_alone_has_the_dish()
    {
        DishShares shares = DishSharing.Best([Claim(0, -1, 2, 3, -1, 4, -2)], Seconds(60));
        DishShift only = Assert.Single(shares.Shifts);
        Assert.Equal((0, Start.AddSeconds(1), Start.AddSeconds(5), Seconds(3)), (only.Claim, only.FromUtc, only.ToUtc, only.Received));
        Assert.Equal(TimeSpan.Zero, Assert.Single(shares.Lost));
    }

    [Fact]
    public void Passes_with_room_between_them_lose_nothing()
    {
        DishShares shares = DishSharing.Best([Even(0, 600), Even(661, 600)], Seconds(60));
        Assert.Equal([0, 1], shares.Shifts.Select(shift => shift.Claim));
        Assert.Equal(Seconds(1200), shares.Received);
        Assert.All(shares.Lost, lost => Assert.Equal(TimeSpan.Zero, lost));
    }

    // By hand: 600 s from 0, 600 s from 480, a turn of 60 s. Their union has 1080 s, the turn takes 60 of it.
    [Fact]
    public void Passes_that_overlap_lose_the_overlap_and_the_turn()
    {
        DishShares shares = DishSharing.Best([Even(0, 600), Even(480, 600)], Seconds(60));
        Assert.Equal(Seconds(1020), shares.Received);
        Assert.Equal(Seconds(180), Seconds(shares.Lost.Sum(lost => lost.TotalSeconds)));
        Assert.Equal(2, shares.Shifts.Length);
        Assert.True(shares.Shifts[1].FromUtc - shares.Shifts[0].ToUtc >= Seconds(60));
    }

    [Fact]
    public void The_dish_turns_where_the_one_becomes_weaker_than_the_other()
    {
        // From 10 dB down to 0.1 over 100 s, and the mirror of it 50 s later: 2.5 dB stronger: equal after 62 s.
        double[] falling = [.. Enumerable.Range(0, 100).Select(k => 10.0 - (0.1 * k))];
        DishShares shares = DishSharing.Best([Claim(0, falling), Claim(50, [.. falling.Reverse().Select(margin => margin + 2.5)])], TimeSpan.Zero);
        Assert.Equal([0, 1], shares.Shifts.Select(shift => shift.Claim));
        Assert.Equal(Seconds(150), shares.Received);
        Assert.InRange((shares.Shifts[0].ToUtc - Start).TotalSeconds, 61, 64); // 10 - t/10 = 2.6 + (t - 50)/10
    }

    [Fact]
    public void A_pass_inside_a_longer_one_is_left_alone_unless_it_pays()
    {
        DishShares weak = DishSharing.Best([Even(0, 700), Even(300, 100)], Seconds(60));
        Assert.Equal(0, Assert.Single(weak.Shifts).Claim);
        Assert.Equal([TimeSpan.Zero, Seconds(100)], weak.Lost.AsEnumerable());

        // Nothing comes of the long one for 400 s in its middle: there and back pays.
        DishClaim gap = Claim(0, [.. Enumerable.Range(0, 1000).Select(k => k is >= 300 and < 700 ? -1.0 : 3.0)]);
        DishShares there = DishSharing.Best([gap, Even(360, 280)], Seconds(60));
        Assert.Equal([0, 1, 0], there.Shifts.Select(shift => shift.Claim));
        Assert.Equal(Seconds(880), there.Received);
    }

    // Every plan of up to nine seconds tried: each second the dish is on one of the passes, or turns.
    [Fact]
    public void No_other_plan_receives_more() => Gen.Select(
        Gen.Int[0, 4],
        Gen.Select(Gen.Int[0, 4], Gen.Double[-3, 6].Array[1, 6]).Array[1, 3]).Sample(
        (turn, passes) =>
        {
            ImmutableArray<DishClaim> claims = [.. passes.Select(pass => Claim(pass.Item1, pass.Item2))];
            DishShares shares = DishSharing.Best(claims, Seconds(turn));
            Assert.Equal(Tried(claims, turn, 0, -1, 10), (int)shares.Received.TotalSeconds);
            Holds(shares, claims, turn);
        },
        iter: 400,
        seed: "0000dishshares");

    private static int Tried(ImmutableArray<DishClaim> claims, int turn, int second, int holder, int end)
    {
        if (second >= end)
        {
            return 0;
        }

        int best = holder >= 0 ? Received(claims[holder], second) + Tried(claims, turn, second + 1, holder, end) : 0;
        for (int next = 0; next < claims.Length; next++)
        {
            if (next != holder)
            {
                int from = holder < 0 ? second : second + turn;
                int got = from < end ? Received(claims[next], from) + Tried(claims, turn, from + 1, next, end) : 0;
                best = Math.Max(best, got);
            }
        }

        return best;
    }

    private static int Received(DishClaim claim, int second)
    {
        int at = second - (int)(claim.StartUtc - Start).TotalSeconds;
        return at >= 0 && at < claim.MarginsDb.Length && claim.MarginsDb[at] > 0.0 ? 1 : 0;
    }

    private static void Holds(DishShares shares, ImmutableArray<DishClaim> claims, int turn)
    {
        Assert.All(shares.Shifts.Zip(shares.Shifts.Skip(1)), pair => Assert.True(
            pair.First.Claim != pair.Second.Claim && pair.Second.FromUtc - pair.First.ToUtc >= Seconds(turn)));
        Assert.All(claims.Select((claim, k) => (claim, k)), one => Assert.Equal(
            one.claim.Receivable, shares.Lost[one.k] + Seconds(shares.Shifts.Where(shift => shift.Claim == one.k).Sum(shift => shift.Received.TotalSeconds))));
    }
}
