using System.Collections.Immutable;

namespace Cockpit.Session.Review;

/// <summary>How much the direction of the moves scatters about what was called, by the level after each.</summary>
/// <remarks>
/// For each call the likelihood of the level until the next one is taken over a grid of directions, with the size of the move and the place of the
/// dish before left open; then the scatter is the one under which all calls together are likeliest (a variance component by maximum
/// likelihood). Where the calls do not tell it, there is none: a move along the way that goes a little aside costs next to no level.
/// </remarks>
internal static class DirectionFit
{
    private const double Degree = Math.PI / 180.0;
    private const int FewestCalls = 5;
    private const double SmallestDegrees = 3.0;
    private const double BeforeSeconds = 10.0;
    private const double AfterSeconds = 14.0;
    private const double UsualReaction = 1.4;
    private const double SettledAfter = 2.5;
    private const double Thinning = 0.35;
    private const double CarriedBy = 1.0; // the likeliest scatter beats the least and the most by so much in the logarithm

    private static readonly double[] Directions = [-60.0, -40.0, -25.0, -12.0, 0.0, 12.0, 25.0, 40.0, 60.0];
    private static readonly double[] Shares = [0.7, 1.0, 1.3];
    private static readonly double[] Scatters = [2.0, 4.0, 6.0, 9.0, 12.0, 16.0, 20.0, 26.0, 34.0, 45.0];

    /// <summary>The scatter, degrees, as the spread of a mean of zero; null where the level does not tell.</summary>
    public static Spread? Of(ReviewLog log, LevelCourse course, ImmutableArray<ReviewCall> calls)
    {
        var likelihoods = new List<double[]>();
        for (int i = 0; i < calls.Length; i++)
        {
            double from = i > 0 ? calls[i - 1].At + SettledAfter : calls[i].At - BeforeSeconds;
            double to = i + 1 < calls.Length ? calls[i + 1].At : calls[i].At + AfterSeconds;
            if (calls[i].Nudge.Total.Degrees >= SmallestDegrees
                && Likelihoods(log, course, calls[i], Math.Max(from, calls[i].At - BeforeSeconds), Math.Min(to, calls[i].At + AfterSeconds)) is { } told)
            {
                likelihoods.Add(told);
            }
        }

        if (likelihoods.Count < FewestCalls)
        {
            return null;
        }

        double[] fits = [.. Scatters.Select(s => likelihoods.Sum(l => Math.Log(Mean(l, s))))];
        int best = Array.IndexOf(fits, fits.Max());
        return fits[best] - fits[0] >= CarriedBy && fits[best] - fits[^1] >= CarriedBy ? new Spread(0.0, Scatters[best], likelihoods.Count) : null;
    }

    private static double Mean(double[] likelihoods, double scatter)
    {
        double sum = 0.0;
        double weights = 0.0;
        for (int i = 0; i < Directions.Length; i++)
        {
            double width = 0.5 * ((i > 0 ? Directions[i] - Directions[i - 1] : 20.0) + (i + 1 < Directions.Length ? Directions[i + 1] - Directions[i] : 20.0));
            double weight = width * Math.Exp(-0.5 * Directions[i] * Directions[i] / (scatter * scatter));
            sum += weight * likelihoods[i];
            weights += weight;
        }

        return sum / weights;
    }

    private static double[]? Likelihoods(ReviewLog log, LevelCourse course, ReviewCall call, double from, double to)
    {
        ImmutableArray<ReviewBlock> blocks = [.. log.Blocks.Where(b => b.Start >= from && b.Start + ReviewBlock.Seconds <= to && b is { LevelDb: not null, Look: not null })];
        if (blocks.Count(b => b.Start > call.At + SettledAfter) < 6 || blocks.Count(b => b.Start < call.At) < 6 || blocks[0].Dish is not { } dish)
        {
            return null;
        }

        var path = new BeamPath(blocks, log.BeamWidth);
        DishStart[] starts = DishStart.Around(dish.Spread);
        double cosine = Math.Max(dish.Elevation.Cos(), 0.05);
        double[] losses = new double[blocks.Length];
        double[] costs = new double[Directions.Length];
        var each = new List<double>();
        for (int d = 0; d < Directions.Length; d++)
        {
            each.Clear();
            foreach (double share in Shares)
            {
                HeadMove move = Turned(call, share, Directions[d] * Degree, cosine);
                foreach (DishStart start in starts)
                {
                    path.Losses(dish, [move], start.Right, start.Up, losses);
                    each.Add(Math.Log(start.Share * (share == 1.0 ? 0.5 : 0.25)) - Cost(log, course, blocks, losses, call.At));
                }
            }

            double most = each.Max();
            costs[d] = most + Math.Log(each.Sum(e => Math.Exp(e - most)));
        }

        double least = costs.Max();
        return [.. costs.Select(c => Math.Exp(c - least))];
    }

    private static HeadMove Turned(ReviewCall call, double share, double by, double cosine)
    {
        (double sine, double cos) = Math.SinCos(by);
        double right = call.Nudge.Pan.Radians * cosine;
        double up = call.Nudge.Tilt.Radians;
        return new HeadMove(call.At + UsualReaction, share * ((right * cos) - (up * sine)) / cosine, share * ((right * sine) + (up * cos)));
    }

    private static double Cost(ReviewLog log, LevelCourse course, ImmutableArray<ReviewBlock> blocks, double[] losses, double called)
    {
        double cost = 0.0;
        for (int i = 0; i < blocks.Length; i++)
        {
            if (blocks[i].Start > called && blocks[i].Start < called + SettledAfter)
            {
                continue;
            }

            LookLevel level = LookLevel.Of(log, course, blocks[i]);
            double off = (blocks[i].LevelDb.GetValueOrDefault() - Math.Max(level.ReachableDb - losses[i], course.FloorDb)) / level.Sd;
            cost += 3.0 * Math.Log(1.0 + (off * off / 5.0));
        }

        return Thinning * cost;
    }

    private readonly record struct LookLevel(double ReachableDb, double Sd)
    {
        public static LookLevel Of(ReviewLog log, LevelCourse course, ReviewBlock block) => block.Look is { } look
            ? new LookLevel(course.ReachableDb(log.Settings, look), GapSuppositions.ResidualSd(look))
            : default;
    }
}
