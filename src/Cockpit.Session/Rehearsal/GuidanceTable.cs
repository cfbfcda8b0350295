using System.Collections.Immutable;

namespace Cockpit.Session.Rehearsal;

/// <summary>One row of the comparison: all passes and seeds of one way of steering.</summary>
/// <param name="Steering">How the dish was steered.</param>
/// <param name="Skill">Whose hand; empty where no hand is involved.</param>
/// <param name="LostPercentByElevation">Lines lost, percent, mean over the seeds, in the order of <see cref="ClosedLoop.Elevations"/>.</param>
/// <param name="LostPercent">Mean over all passes, percent.</param>
/// <param name="StandardError">Its standard error, percent.</param>
/// <param name="Percentile90">90 % of the passes lost at most this, percent.</param>
/// <param name="RmsDegrees">Root mean square of the aim error.</param>
/// <param name="Moves">Mean count of moves in a pass.</param>
/// <param name="Marks">Mean count of marks in a pass.</param>
public sealed record GuidanceRow(
    Steering Steering,
    string Skill,
    ImmutableArray<double> LostPercentByElevation,
    double LostPercent,
    double StandardError,
    double Percentile90,
    double RmsDegrees,
    double Moves,
    double Marks);

/// <summary>Lines lost with and without guidance, in simulation.</summary>
public static class GuidanceTable
{
    /// <summary>The rows of the comparison in their order.</summary>
    public static ImmutableArray<(Steering Steering, HandSkill Skill)> Cases { get; } =
    [
        (Steering.Perfect, HandSkill.Practised),
        (Steering.HoldPlan, HandSkill.Practised),
        (Steering.Unguided, HandSkill.Novice),
        (Steering.Unguided, HandSkill.Practised),
        (Steering.Guided, HandSkill.Novice),
        (Steering.Guided, HandSkill.Practised),
    ];

    /// <summary>Flies every pass with every seed.</summary>
    /// <param name="firstSeed">First seed: 0 to report, 2000 to tune, 1000 to confirm.</param>
    /// <param name="seeds">How many, from 1.</param>
    public static ImmutableArray<GuidanceRow> Make(ulong firstSeed, int seeds) =>
        [.. Cases.Select(c => Row(c.Steering, c.Skill, firstSeed, seeds))];

    /// <summary>Flies every pass with every seed for one way of steering.</summary>
    /// <param name="steering">How the dish is steered.</param>
    /// <param name="skill">Whose hand.</param>
    /// <param name="firstSeed">First seed.</param>
    /// <param name="seeds">How many, from 1.</param>
    public static GuidanceRow Row(Steering steering, HandSkill skill, ulong firstSeed, int seeds)
    {
        ArgumentNullException.ThrowIfNull(skill);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(seeds);
        PassScore[][] scores = [.. ClosedLoop.Elevations.Select(elevation =>
            Enumerable.Range(0, seeds).Select(i => ClosedLoop.Fly(steering, skill, elevation, firstSeed + (ulong)i)).ToArray())];
        PassScore[] all = [.. scores.SelectMany(s => s)];
        double[] lost = [.. all.Select(s => 100.0 * s.LostShare).Order()];
        double mean = lost.Average();
        double variance = lost.Sum(l => (l - mean) * (l - mean)) / Math.Max(1, lost.Length - 1);
        return new GuidanceRow(
            steering,
            steering is Steering.Perfect or Steering.HoldPlan ? "" : skill.Name,
            [.. scores.Select(s => 100.0 * s.Average(p => p.LostShare))],
            mean,
            Math.Sqrt(variance / lost.Length),
            lost[(int)Math.Ceiling(0.9 * lost.Length) - 1],
            Math.Sqrt(all.Average(s => s.RmsDegrees * s.RmsDegrees)),
            all.Average(s => s.Moves),
            all.Average(s => s.Marks));
    }
}
