using System.Collections.Immutable;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Session.Review;

/// <summary>Size of the moves of a pass against what was called, along the satellite's way.</summary>
/// <remarks>
/// While the dish stands the satellite crosses the beam, and the slope of the level says how far along the way the axis is. A Kalman filter follows
/// the axis from hold to hold: a call moves it by the amount times what was called, with the scatter of a hand; a slope measures it. The amount is
/// the one under which all slopes together are likeliest, its error from the curvature there. One wild hold counts little.
/// </remarks>
internal static class AmountFit
{
    private const int FewestMoves = 4;
    private const int FewestBlocks = 8;
    private const double LongestHold = 20.0;
    private const double SettledAfter = 3.2;
    private const double SettledAfterKey = 0.4;
    private const double FadingSdDb = 0.5;
    private const double ScatterShare = 0.22; // of a move, and what any move errs: design values of the simulated hands
    private const double ScatterDegrees = 1.2;
    private const double WildSdDegrees = 25.0;
    private const double WildShare = 0.03;
    private const double WrongShare = 0.03;
    private const double LapseShare = 0.06;
    private const double LapseWithKey = 0.003;
    private const double AgainWithin = 6.0;
    private const double Lowest = 0.3;
    private const double Highest = 2.5;
    private const double Step = 0.01;
    private const double WorstSd = 0.3;

    /// <summary>The amount with its error and the number of moves; null where the level does not tell.</summary>
    public static Spread? Of(ReviewLog log, LevelCourse course, ImmutableArray<ReviewCall> calls)
    {
        var way = SkyWay.Of(log.Blocks);
        MeasuredHold[] holds = [.. Holds(log, course, calls, way)];
        int moves = holds.Skip(1).Count(h => h is { At: not null, Free: false });
        if (moves < FewestMoves)
        {
            return null;
        }

        int count = (int)Math.Round((Highest - Lowest) / Step) + 1;
        double[] fits = [.. Enumerable.Range(0, count).Select(i => Fit(holds, Lowest + (i * Step)))];
        int best = Array.IndexOf(fits, fits.Max());
        if (best == 0 || best == count - 1)
        {
            return null;
        }

        // By the weights of the likelihood rather than its bare top, which is rough.
        double[] weights = [.. fits.Select(f => Math.Exp(f - fits[best]))];
        double total = weights.Sum();
        double mean = weights.Select((w, i) => w * (Lowest + (i * Step))).Sum() / total;
        double sd = Math.Sqrt(weights.Select((w, i) => w * Math.Pow(Lowest + (i * Step) - mean, 2.0)).Sum() / total);
        return sd <= WorstSd ? new Spread(mean, sd, moves) : null;
    }

    // The logarithm of the likelihood of all measured holds.
    private static double Fit(MeasuredHold[] holds, double amount)
    {
        double fit = 0.0;
        double mean = 0.0;
        double variance = double.PositiveInfinity;
        foreach (MeasuredHold hold in holds)
        {
            variance = hold.Free ? double.PositiveInfinity : variance;
            if (hold is not { At: { } at, Sd: var sd })
            {
                mean += amount * hold.Asked;
                variance += Scatter(hold.Asked);
            }
            else if (double.IsInfinity(variance))
            {
                (mean, variance) = (at, sd * sd);
            }
            else
            {
                (double told, mean, variance) = Heard(hold, at, sd, amount, mean, variance);
                fit += told;
            }
        }

        return fit;
    }

    // What one measured hold says: the move was made as usual, or not at all, or the wrong way, or something else happened.
    private static (double Fit, double Mean, double Variance) Heard(MeasuredHold hold, double at, double sd, double amount, double mean, double variance)
    {
        double lapse = hold.Done ? LapseWithKey : LapseShare;
        ReadOnlySpan<(double Share, double Made)> ways =
            [(1.0 - lapse - WrongShare - WildShare, amount), (lapse, 0.0), (WrongShare, -amount), (WildShare, double.NaN)];
        double total = 0.0;
        double sum = 0.0;
        double squares = 0.0;
        foreach ((double share, double made) in ways)
        {
            bool wild = double.IsNaN(made);
            double before = wild ? WildSdDegrees * WildSdDegrees : variance + Scatter(made == 0.0 ? 0.0 : hold.Asked);
            double all = before + (sd * sd);
            double off = at - (mean + (wild ? 0.0 : made * hold.Asked));
            double weight = share * Math.Exp(-0.5 * off * off / all) / Math.Sqrt(all);
            double after = at - (off * (1.0 - (before / all)));
            total += weight;
            sum += weight * after;
            squares += weight * ((before * sd * sd / all) + (after * after));
        }

        total += 1e-300;
        return (Math.Log(total), sum / total, Math.Max((squares / total) - (sum / total * (sum / total)), 0.01));
    }

    private static double Scatter(double asked) => (ScatterDegrees * ScatterDegrees) + (ScatterShare * ScatterShare * asked * asked);

    private static IEnumerable<MeasuredHold> Holds(ReviewLog log, LevelCourse course, ImmutableArray<ReviewCall> calls, SkyWay way)
    {
        for (int i = -1; i < calls.Length; i++)
        {
            double until = i + 1 < calls.Length ? calls[i + 1].At : double.MaxValue;
            double from = i < 0 ? double.MinValue : calls[i].At + Settled(log, calls[i].At, until);
            bool free = i < 0 || log.Keys.Any(k => k.Key == OperatorKey.Peaked && k.At >= calls[i].At && k.At < until) || CalledAgain(log, calls, i);
            bool done = i >= 0 && log.Keys.Any(k => k.Key == OperatorKey.Moved && k.At > calls[i].At && k.At < until);
            double asked = i < 0 ? 0.0 : way.Along(calls[i]);
            (double Degrees, double Sd)? axis = Axis(log, course, way, Math.Max(from, until - LongestHold), Math.Min(until, from + LongestHold));
            yield return new MeasuredHold(asked, axis?.Degrees, axis?.Sd ?? 0.0, free, done);
        }
    }

    // A call soon after one that no key answered may be the same move called again: nobody knows whether one was made or two.
    private static bool CalledAgain(ReviewLog log, ImmutableArray<ReviewCall> calls, int i) =>
        i > 0 && calls[i].At - calls[i - 1].At < AgainWithin && !log.Keys.Any(k => k.Key == OperatorKey.Moved && k.At > calls[i - 1].At && k.At < calls[i].At);

    private static double Settled(ReviewLog log, double call, double until)
    {
        foreach (ReviewKey key in log.Keys)
        {
            if (key.Key == OperatorKey.Moved && key.At > call && key.At < until)
            {
                return key.At - call + SettledAfterKey;
            }
        }

        return SettledAfter;
    }

    // Where the axis of a standing dish lies along the satellite's way, degrees from the begin of the way; by least squares.
    private static (double Degrees, double Sd)? Axis(ReviewLog log, LevelCourse course, SkyWay way, double from, double to)
    {
        ReviewBlock[] blocks = [.. log.Blocks.Where(b => b.Start >= from && b.Start + ReviewBlock.Seconds <= to && b is { LevelDb: not null, Look: not null }
            && b.Word is not AimWord.Search && b.LevelDb > course.FloorDb + 3.0)];
        if (blocks.Length < FewestBlocks)
        {
            return null;
        }

        // level = reach - 12/B^2 ((u - a)^2 + c^2): what is left after 12/B^2 u^2 is put back is a straight line in u with slope 24 a/B^2.
        double beam = log.BeamWidth.Degrees;
        double k = 12.0 / (beam * beam);
        double origin = way.At(blocks[blocks.Length / 2].Start);
        (double U, double Y)[] points = [.. blocks.Select(b =>
        {
            double u = way.At(b.Start) - origin;
            return (u, b.LevelDb.GetValueOrDefault() - course.ReachableDb(log.Settings, b.Look.GetValueOrDefault()) + (k * u * u));
        })];
        double meanU = points.Average(p => p.U);
        double meanY = points.Average(p => p.Y);
        double uu = points.Sum(p => (p.U - meanU) * (p.U - meanU));
        double uy = points.Sum(p => (p.U - meanU) * (p.Y - meanY));
        double slopeSd = FadingSdDb * 2.0 / Math.Sqrt(uu); // fading is correlated over about four half seconds
        return uu < 1.0 ? null : (origin + (uy / uu / (2.0 * k)), slopeSd / (2.0 * k));
    }

    /// <summary>A hold and the move that led to it.</summary>
    /// <param name="Asked">What was called along the way, degrees.</param>
    /// <param name="At">Where the axis then was along the way, degrees; null where the level does not tell.</param>
    /// <param name="Sd">Its error, degrees.</param>
    /// <param name="Free">The hand moved as it liked: nothing is known of where it came from.</param>
    /// <param name="Done">A key said that the move was made.</param>
    private readonly record struct MeasuredHold(double Asked, double? At, double Sd, bool Free, bool Done);
}
