using System.Collections.Immutable;
using Cockpit.Core.Chance;
using Cockpit.Session.Review;

namespace Cockpit.Session.Rehearsal;

/// <summary>What ten passes tell about a hand, against what it is, and what it brings.</summary>
/// <param name="Skill">The hand as it is.</param>
/// <param name="Learnt">The hand as the passes tell it.</param>
/// <param name="StandardPercent">Lines lost with the standard guidance, percent.</param>
/// <param name="LearntPercent">The same with guidance that knows the hand, on the same passes.</param>
/// <param name="Gain">Standard less learnt, percent, with its interval.</param>
public sealed record LearnTrial(HandSkill Skill, LearntHand Learnt, double StandardPercent, double LearntPercent, LossDifference Gain)
{
    /// <summary>Learnt reaction less the true one, seconds; null when it was not learnt.</summary>
    public double? ReactionError => Learnt.ReactionSeconds?.Value - Skill.CueReactionSeconds;

    /// <summary>Learnt amount over the true one, less one; null when it was not learnt.</summary>
    public double? AmountError => Learnt.Amount is { } amount ? (amount.Value / Skill.Amount) - 1.0 : null;

    /// <summary>Hands with other parameters than the standard ones.</summary>
    public static ImmutableArray<HandSkill> Hands { get; } =
    [
        HandSkill.Novice with { Name = "slow-short", CueReactionSeconds = 1.5, Amount = 0.75 },
        HandSkill.Practised with { Name = "quick-far", CueReactionSeconds = 0.35, Amount = 1.3 },
    ];
}

/// <summary>How much less one way loses than another on the same passes, percent of the lines, with its interval of 95 %.</summary>
/// <param name="Mean">Positive: the second loses less.</param>
/// <param name="Low">Lower end.</param>
/// <param name="High">Upper end.</param>
public readonly record struct LossDifference(double Mean, double Low, double High)
{
    private const int Draws = 2000;
    private const ulong Seed = 20261126;

    /// <summary>By the bootstrap over passes, each with both scores; seeded.</summary>
    /// <remarks>B. Efron, R. Tibshirani, An Introduction to the Bootstrap (1993), percentile interval.</remarks>
    /// <param name="first">Scores of one way.</param>
    /// <param name="second">Scores of the other on the same passes.</param>
    public static LossDifference Of(ImmutableArray<PassScore> first, ImmutableArray<PassScore> second)
    {
        ArgumentOutOfRangeException.ThrowIfNotEqual(second.Length, first.Length, nameof(second));
        double[] less = [.. first.Zip(second, (a, b) => 100.0 * (a.LostShare - b.LostShare))];
        var chance = new Xoshiro256(Seed);
        double[] drawn = [.. Enumerable.Range(0, Draws).Select(_ => Enumerable.Range(0, less.Length).Average(_ => less[chance.NextBelow(less.Length)])).Order()];
        return new LossDifference(less.Average(), drawn[(int)(0.025 * Draws)], drawn[(int)(0.975 * Draws) - 1]);
    }
}
