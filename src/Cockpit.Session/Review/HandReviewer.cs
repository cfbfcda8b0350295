using System.Collections.Immutable;
using Cockpit.Core.Units;
using Cockpit.Session.Events;

namespace Cockpit.Session.Review;

/// <summary>What a session tells about the hand.</summary>
internal static class HandReviewer
{
    private const double LongestReaction = 15.0;
    private const double TurnDegreesPerSec = 25.0;

    // From the begin of a move to its end by its size, s: a design value of the simulated hands, nobody measured it.
    private static double MoveSeconds(Angle size, double turn) => Math.Max(0.35 + (0.2 * Math.Log2(1.0 + (size.Degrees / 1.5))), turn / TurnDegreesPerSec);

    public static HandReview Make(ReviewLog log, LevelCourse? course, double start, double end)
    {
        ImmutableArray<ReviewCall> calls = [.. log.Calls.Where(c => c.At >= start && c.At < end)];
        int planned = log.PlannedHolds.Count(h => log.Blocks.Any(b => b.Start >= start && b.Start < end && Math.Abs((b.Utc - h.FromUtc).TotalSeconds) <= ReviewBlock.Seconds)) - 1;
        ImmutableArray<ReactionPoint> reactions = Reactions(log, calls);
        return new HandReview(
            Reaction(reactions),
            course is null ? null : AmountFit.Of(log, course, calls),
            course is null ? null : DirectionFit.Of(log, course, calls),
            calls.Length,
            Math.Max(0, planned),
            log.Keys.Count(k => k.Key == OperatorKey.Peaked && k.At >= start && k.At < end),
            reactions);
    }

    private static ImmutableArray<ReactionPoint> Reactions(ReviewLog log, ImmutableArray<ReviewCall> calls)
    {
        var points = ImmutableArray.CreateBuilder<ReactionPoint>();
        for (int i = 0; i < calls.Length; i++)
        {
            double until = Math.Min(calls[i].At + LongestReaction, i + 1 < calls.Length ? calls[i + 1].At : double.MaxValue);
            double? key = log.Keys.Where(k => k.Key == OperatorKey.Moved && k.At > calls[i].At && k.At < until).Select(k => (double?)k.At).FirstOrDefault();
            if (key is { } at)
            {
                double after = at - calls[i].At;
                double turn = Math.Max(calls[i].Nudge.Pan.Abs().Degrees, calls[i].Nudge.Tilt.Abs().Degrees);
                points.Add(new ReactionPoint(calls[i].Utc, Math.Max(0.0, after - MoveSeconds(calls[i].Nudge.Total, turn)), after, calls[i].Nudge.Total.Degrees, turn));
            }
        }

        return points.ToImmutable();
    }

    private static Spread? Reaction(ImmutableArray<ReactionPoint> points)
    {
        if (points.Length < 3)
        {
            return null;
        }

        double[] seconds = [.. points.Select(p => p.Seconds).Order()];
        double mean = seconds.Average();
        return new Spread(seconds[seconds.Length / 2], Math.Sqrt(seconds.Sum(s => (s - mean) * (s - mean)) / (seconds.Length - 1)), seconds.Length);
    }
}
