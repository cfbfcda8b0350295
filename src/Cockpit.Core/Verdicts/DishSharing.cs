using System.Collections.Immutable;

namespace Cockpit.Core.Verdicts;

/// <summary>Shares one dish among passes that overlap so that the most seconds over the need are received.</summary>
/// <remarks>
/// Second by second: the best that can have been received when the dish is settled on a pass is the best of having stayed on it and of having
/// left another one a turn earlier (dynamic programming; Bellman 1957). Among equally good ways the one with the fewest turns counts, among
/// these the one with the most decibels over the need, so that a dish turns where the one becomes weaker than the other. What is found is
/// the most that any plan on whole seconds receives; a test compares with all plans of short passes.
/// </remarks>
public static class DishSharing
{
    // One number for the order: seconds before turns before hundredths of a decibel. 3 days of 20 dB are 5e8, below a turn.
    private const long SecondWorth = 1_000_000_000_000;
    private const long TurnWorth = 1_000_000_000;
    private const double MostDb = 20.0;
    private const int MostSeconds = 3 * 86_400;

    /// <summary>Shares the dish.</summary>
    /// <param name="claims">The passes; at least one, and within three days of each other.</param>
    /// <param name="turn">From leaving one pass to receiving the other, rounded up to whole seconds; nothing is received meanwhile.</param>
    /// <exception cref="ArgumentException">There is no claim, they span more than three days, or the turn is negative.</exception>
    public static DishShares Best(ImmutableArray<DishClaim> claims, TimeSpan turn)
    {
        if (claims.IsEmpty)
        {
            throw new ArgumentException("a dish is shared among at least one pass", nameof(claims));
        }

        ArgumentOutOfRangeException.ThrowIfLessThan(turn, TimeSpan.Zero);
        DateTimeOffset start = claims.Min(claim => claim.StartUtc);
        double span = Math.Ceiling((claims.Max(claim => claim.EndUtc) - start).TotalSeconds);
        if (span > MostSeconds)
        {
            throw new ArgumentException("the passes are more than three days apart", nameof(claims));
        }

        long[][] worth = [.. claims.Select(claim => Worth(claim, start, (int)span))];
        int[] holder = Holders(worth, (int)span, (int)Math.Ceiling(turn.TotalSeconds));
        ImmutableArray<DishShift> shifts = Shifts(worth, holder, start);
        return new DishShares(
            shifts,
            TimeSpan.FromSeconds(shifts.Sum(shift => shift.Received.TotalSeconds)),
            [.. claims.Select((claim, k) => claim.Receivable - TimeSpan.FromSeconds(shifts.Where(shift => shift.Claim == k).Sum(shift => shift.Received.TotalSeconds)))]);
    }

    private static long[] Worth(DishClaim claim, DateTimeOffset start, int span)
    {
        long[] worth = new long[span];
        int first = (int)Math.Floor((claim.StartUtc - start).TotalSeconds);
        for (int k = 0; k < claim.MarginsDb.Length && first + k < span; k++)
        {
            double margin = claim.MarginsDb[k];
            worth[first + k] = margin > 0.0 ? SecondWorth + (long)(100.0 * Math.Min(margin, MostDb)) : 0;
        }

        return worth;
    }

    /// <summary>Who has the dish in each second; -1 while it turns.</summary>
    private static int[] Holders(long[][] worth, int span, int turn)
    {
        int passes = worth.Length;
        long[,] best = new long[span + 1, passes];
        int[,] came = new int[span + 1, passes]; // from which pass the dish turned to arrive here; -1 = it stayed
        for (int t = 0; t <= span; t++)
        {
            for (int k = 0; k < passes; k++)
            {
                came[t, k] = -1;
                best[t, k] = t == 0 ? 0 : best[t - 1, k] + worth[k][t - 1];
            }

            for (int k = 0; t >= turn && k < passes; k++)
            {
                for (int other = 0; other < passes; other++)
                {
                    // With a turn of no time the other has to be settled itself, not just arrived.
                    if (other != k && (turn > 0 || came[t, other] < 0) && best[t - turn, other] - TurnWorth > best[t, k])
                    {
                        (best[t, k], came[t, k]) = (best[t - turn, other] - TurnWorth, other);
                    }
                }
            }
        }

        return Traced(best, came, span, turn);
    }

    private static int[] Traced(long[,] best, int[,] came, int span, int turn)
    {
        int passes = best.GetLength(1);
        int[] holder = new int[span];
        int at = Enumerable.Range(0, passes).MaxBy(k => best[span, k]);
        for (int t = span; t > 0;)
        {
            if (came[t, at] is >= 0 and var other)
            {
                Array.Fill(holder, -1, t - turn, turn);
                (t, at) = (t - turn, other);
                if (turn > 0)
                {
                    continue;
                }
            }

            holder[--t] = at;
        }

        return holder;
    }

    /// <summary>The shifts that bring something, each from its first good second to its last.</summary>
    private static ImmutableArray<DishShift> Shifts(long[][] worth, int[] holder, DateTimeOffset start)
    {
        var shifts = ImmutableArray.CreateBuilder<DishShift>();
        for (int from = 0, to; from < holder.Length; from = to)
        {
            to = from + 1;
            while (to < holder.Length && holder[to] == holder[from])
            {
                to++;
            }

            if (holder[from] is >= 0 and var claim && Enumerable.Range(from, to - from).Where(t => worth[claim][t] > 0).ToArray() is [var first, ..] good)
            {
                shifts.Add(new DishShift(claim, start.AddSeconds(first), start.AddSeconds(good[^1] + 1), TimeSpan.FromSeconds(good.Length)));
            }
        }

        return shifts.ToImmutable();
    }
}
