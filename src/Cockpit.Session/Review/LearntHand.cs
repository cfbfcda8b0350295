using System.Collections.Immutable;
using Cockpit.Session.Events;

namespace Cockpit.Session.Review;

/// <summary>What one pass told about the hand, reduced to what is needed beside other passes.</summary>
/// <param name="Keys">Keys "moved" after a call: how long after it, seconds, and the size of the move, degrees.</param>
/// <param name="Amount">Size of the moves against what was called, its error, moves; null where the level did not tell.</param>
public sealed record HandOfPass(ImmutableArray<ReactionPoint> Keys, Spread? Amount)
{
    /// <summary>A pass that told nothing.</summary>
    public static HandOfPass Nothing { get; } = new([], null);

    /// <summary>Of a review.</summary>
    /// <param name="hand">Its hand.</param>
    public static HandOfPass Of(HandReview hand)
    {
        ArgumentNullException.ThrowIfNull(hand);
        return new HandOfPass(hand.Reactions, hand.Amount);
    }
}

/// <summary>The hand as the last passes together tell it; what they do not tell is null.</summary>
/// <param name="ReactionSeconds">From a call to the begin of the move: median, its error, keys.</param>
/// <param name="Amount">Moves against what was called: mean, its error, moves.</param>
/// <param name="Passes">Passes that told anything.</param>
public sealed record LearntHand(Spread? ReactionSeconds, Spread? Amount, int Passes)
{
    /// <summary>So many passes at most are looked at, the latest.</summary>
    public const int MostPasses = 10;

    private const int FewestKeys = 8;
    private const int FewestAmounts = 2;
    private const double EveningSd = 0.03;
    private const double LeastMoveSeconds = 0.35; // of a small move, as of the simulated hands: nobody has measured a person
    private const double SmallMoveDegrees = 1.5;
    private const double UsualSlope = 0.2; // seconds more for each doubling of the size
    private const double SlopeSd = 0.06;
    private const double KeySd = 0.35;
    private const double LargestDegrees = 18.0; // larger ones take as long as the head turns
    private const double MostAmountSd = 0.06;

    /// <summary>Nothing is known.</summary>
    public static LearntHand Unknown { get; } = new(null, null, 0);

    /// <summary>What goes into the guidance; null when nothing is known.</summary>
    public HandSettings? Settings() => ReactionSeconds is null && Amount is null ? null : new HandSettings
    {
        ReactionSeconds = ReactionSeconds is { } reaction ? Math.Round(Math.Clamp(reaction.Value, 0.1, 5.0), 3) : null,
        Amount = Amount is { } amount ? Math.Round(Math.Clamp(amount.Value, 0.4, 2.5), 3) : null,
        Passes = Passes,
    };

    /// <summary>Puts passes together.</summary>
    /// <param name="passes">The latest <see cref="MostPasses"/>, in any order.</param>
    public static LearntHand Of(IReadOnlyCollection<HandOfPass> passes)
    {
        ArgumentNullException.ThrowIfNull(passes);
        ReactionPoint[] keys = [.. passes.SelectMany(p => p.Keys).Where(k => k.TurnDegrees <= LargestDegrees)];
        Spread[] amounts = [.. passes.Select(p => p.Amount).OfType<Spread>()];
        return new LearntHand(
            keys.Length >= FewestKeys ? Reaction(keys) : null, amounts.Length >= FewestAmounts ? Pooled(amounts) : null, passes.Count(p => p.Keys.Length > 0 || p.Amount is not null));
    }

    // Weighed by their errors and by how much a hand differs from evening to evening.
    private static Spread? Pooled(Spread[] amounts)
    {
        static double Weight(Spread amount) => 1.0 / ((amount.Sd * amount.Sd) + (EveningSd * EveningSd));
        double weights = amounts.Sum(Weight);
        double mean = amounts.Sum(a => a.Value * Weight(a)) / weights;
        double off = amounts.Sum(a => Weight(a) * (a.Value - mean) * (a.Value - mean)) / Math.Max(1, amounts.Length - 1);
        double sd = Math.Sqrt(Math.Max(1.0, off) / weights);
        return sd <= MostAmountSd ? new Spread(mean, sd, amounts.Sum(a => a.Count)) : null;
    }

    // key = reaction + time of the move, which grows with the doublings of its size; how fast it grows is fitted with what is usual as a prior.
    private static Spread Reaction(ReactionPoint[] keys)
    {
        double[] doublings = [.. keys.Select(k => Math.Log2(1.0 + (k.SizeDegrees / SmallMoveDegrees)))];
        double meanX = doublings.Average();
        double meanY = keys.Average(k => k.KeySeconds);
        double xx = KeySd * KeySd / (SlopeSd * SlopeSd);
        double xy = xx * UsualSlope;
        for (int i = 0; i < keys.Length; i++)
        {
            xx += (doublings[i] - meanX) * (doublings[i] - meanX);
            xy += (doublings[i] - meanX) * (keys[i].KeySeconds - meanY);
        }

        double slope = xy / xx;
        double[] begun = [.. keys.Select((k, i) => k.KeySeconds - LeastMoveSeconds - (slope * doublings[i])).Order()];
        double median = Math.Max(0.0, begun[begun.Length / 2]);
        double spread = 0.5 * (begun[(int)(0.84 * (begun.Length - 1))] - begun[(int)(0.16 * (begun.Length - 1))]);
        return new Spread(median, 1.25 * spread / Math.Sqrt(begun.Length), begun.Length); // 1.25: the median of normal errors
    }
}
