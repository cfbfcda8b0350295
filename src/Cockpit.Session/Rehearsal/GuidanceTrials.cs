using System.Collections.Immutable;

namespace Cockpit.Session.Rehearsal;

/// <summary>One row of the comparison: all passes and seeds of one way of steering.</summary>
/// <param name="Label">What distinguishes the row beside steering and hand; empty for the base.</param>
/// <param name="Steering">How the dish was steered.</param>
/// <param name="Skill">Whose hand; empty where no hand is involved.</param>
/// <param name="LostPercentByElevation">Lines lost, percent, mean over the seeds, in the order of the passes.</param>
/// <param name="LostPercent">Mean over all passes, percent.</param>
/// <param name="StandardError">Its standard error, percent.</param>
/// <param name="AvoidablePercent">Mean over what perfect pointing loses on the same passes, percent; null where that was not flown.</param>
/// <param name="Percentile90">90 % of the passes lost at most this, percent.</param>
/// <param name="WorstPercent">The worst pass, percent.</param>
/// <param name="FirstPercent">Of it, lost in the first minute.</param>
/// <param name="LowPercent">Of it, lost later below 10 degrees.</param>
/// <param name="RestPercent">Of it, the rest.</param>
/// <param name="RmsDegrees">Root mean square of the aim error.</param>
/// <param name="Moves">Mean count of moves in a pass.</param>
/// <param name="Marks">Mean count of marks in a pass.</param>
/// <param name="InHalfPercent">How often the dish was inside the stated region of 50 %; null without a belief.</param>
/// <param name="InMostPercent">The same of 95 %.</param>
/// <param name="OfUnguided">Lost over perfect pointing, as a share of what the hand loses without guidance; null where that was not flown.</param>
public sealed record GuidanceRow(
    string Label,
    Steering Steering,
    string Skill,
    ImmutableArray<double> LostPercentByElevation,
    double LostPercent,
    double StandardError,
    double? AvoidablePercent,
    double Percentile90,
    double WorstPercent,
    double FirstPercent,
    double LowPercent,
    double RestPercent,
    double RmsDegrees,
    double Moves,
    double Marks,
    double? InHalfPercent,
    double? InMostPercent,
    LossRatio? OfUnguided = null);

/// <summary>Lines lost with and without guidance, in simulation.</summary>
public static class GuidanceTrials
{
    /// <summary>The ways of steering that are compared by default.</summary>
    public static ImmutableArray<Steering> Usual { get; } = [Steering.Perfect, Steering.HoldPlan, Steering.Unguided, Steering.Guided];

    /// <summary>Whether a hand matters to a way of steering.</summary>
    public static bool HasHand(Steering steering) => steering is not (Steering.Perfect or Steering.HoldPlan);

    /// <summary>A row from the scores of its passes.</summary>
    /// <param name="label">What distinguishes it; empty for the base.</param>
    /// <param name="trials">The passes, in the order of elevations, then seeds.</param>
    /// <param name="scores">Their scores, in the same order.</param>
    /// <param name="perfect">What perfect pointing lost on the same passes; null where that was not flown.</param>
    public static GuidanceRow Row(string label, ImmutableArray<Trial> trials, ImmutableArray<PassScore> scores, ImmutableArray<PassScore>? perfect = null)
    {
        ArgumentOutOfRangeException.ThrowIfZero(trials.Length, nameof(trials));
        ArgumentOutOfRangeException.ThrowIfNotEqual(trials.Length, scores.Length, nameof(scores));
        double[] lost = [.. scores.Select(s => 100.0 * s.LostShare)];
        double mean = lost.Average();
        double variance = lost.Sum(l => (l - mean) * (l - mean)) / Math.Max(1, lost.Length - 1);
        double[] ordered = [.. lost.Order()];
        int believed = scores.Sum(s => s.Believed);
        return new GuidanceRow(
            label,
            trials[0].Steering,
            HasHand(trials[0].Steering) ? trials[0].Skill.Name : "",
            [.. trials.Select((trial, i) => (trial.HighestDegrees, Lost: lost[i])).GroupBy(t => t.HighestDegrees, t => t.Lost).Select(g => g.Average())],
            mean,
            Math.Sqrt(variance / lost.Length),
            perfect is { } best ? mean - (100.0 * best.Average(s => s.LostShare)) : null,
            ordered[(int)Math.Ceiling(0.9 * ordered.Length) - 1],
            ordered[^1],
            100.0 * scores.Average(s => s.FirstShare),
            100.0 * scores.Average(s => s.LowShare),
            100.0 * scores.Average(s => s.RestShare),
            Math.Sqrt(scores.Average(s => s.RmsDegrees * s.RmsDegrees)),
            scores.Average(s => s.Moves),
            scores.Average(s => s.Marks),
            believed > 0 ? 100.0 * scores.Sum(s => s.InHalf) / believed : null,
            believed > 0 ? 100.0 * scores.Sum(s => s.InMost) / believed : null);
    }
}
