using System.Collections.Immutable;
using Cockpit.Core.Aim;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Session.Review;

/// <summary>What a session tells about the hand.</summary>
internal static class HandReviewer
{
    private const double LongestReaction = 15.0;
    private const double SettledAfter = 2.5;
    private const int FewestBlocks = 10;
    private const double SmallestNudgeDegrees = 2.0;
    private const double FadingSdDb = 0.5;

    // From the begin of a move to its end by its size, s: a design value of the simulated hands, nobody measured it.
    private static double MoveSeconds(Angle size) => 0.35 + (0.2 * Math.Log2(1.0 + (size.Degrees / 1.5)));

    public static HandReview Make(ReviewLog log, LevelCourse? course, double start, double end)
    {
        ImmutableArray<ReviewCall> calls = [.. log.Calls.Where(c => c.At >= start && c.At < end)];
        int planned = log.PlannedHolds.Count(h => log.Blocks.Any(b => b.Start >= start && b.Start < end && Math.Abs((b.Utc - h.FromUtc).TotalSeconds) <= ReviewBlock.Seconds)) - 1;
        ImmutableArray<ReactionPoint> reactions = Reactions(log, calls);
        return new HandReview(
            Reaction(reactions),
            course is null ? null : Amount(log, course, calls),
            null,
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
                points.Add(new ReactionPoint(calls[i].Utc, Math.Max(0.0, at - calls[i].At - MoveSeconds(calls[i].Nudge.Total))));
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

    /// <summary>
    /// While the dish stands the satellite crosses the beam: the level's slope says how far along the way the axis is. The difference of two
    /// such places, against what was called between them, is the amount of that nudge.
    /// </summary>
    private static Spread? Amount(ReviewLog log, LevelCourse course, ImmutableArray<ReviewCall> calls)
    {
        double sum = 0.0;
        double weights = 0.0;
        int count = 0;
        for (int i = 0; i < calls.Length; i++)
        {
            ReviewCall call = calls[i];
            double from = i > 0 ? calls[i - 1].At + SettledAfter : call.At - 12.0;
            double to = i + 1 < calls.Length ? calls[i + 1].At : call.At + 12.0;
            if (call.Nudge.Total.Degrees < SmallestNudgeDegrees
                || Axis(log, course, from, call.At, call.At) is not { } before
                || Axis(log, course, call.At + SettledAfter, to, call.At) is not { } after
                || Along(log, call) is not { } asked || Math.Abs(asked) < SmallestNudgeDegrees)
            {
                continue;
            }

            double share = (after.Degrees - before.Degrees) / asked;
            double sd = Math.Sqrt((before.Sd * before.Sd) + (after.Sd * after.Sd)) / Math.Abs(asked);
            sum += share / (sd * sd);
            weights += 1.0 / (sd * sd);
            count++;
        }

        return count >= 3 ? new Spread(sum / weights, 1.0 / Math.Sqrt(weights), count) : null;
    }

    // Where the axis of a standing dish lies along the satellite's way, degrees from where the satellite was at the origin; by least squares.
    private static (double Degrees, double Sd)? Axis(ReviewLog log, LevelCourse course, double from, double to, double origin)
    {
        LookAngles? zero = LookAt(log, origin);
        ReviewBlock[] blocks = [.. log.Blocks.Where(b => b.Start >= from && b.Start + ReviewBlock.Seconds <= to && b is { LevelDb: not null, Look: not null }
            && b.Word is not AimWord.Search && b.LevelDb > course.FloorDb + 3.0)];
        if (zero is not { } o || blocks.Length < FewestBlocks)
        {
            return null;
        }

        // level = reach - 12/B² ((u - a)² + c²): what is left after 12/B² u² is put back is a straight line in u with slope 24 a/B².
        double beam = log.BeamWidth.Degrees;
        double k = 12.0 / (beam * beam);
        (double U, double Y)[] points = [.. blocks.Select(b =>
        {
            double u = AimErrors.Separation(o.Azimuth, o.Elevation, b.Look!.Value.Azimuth, b.Look.Value.Elevation).Degrees * Math.Sign(b.Start - origin);
            return (u, b.LevelDb!.Value - course.ReachableDb(log.Settings, b.Look.Value) + (k * u * u));
        })];
        double meanU = points.Average(p => p.U);
        double meanY = points.Average(p => p.Y);
        double uu = points.Sum(p => (p.U - meanU) * (p.U - meanU));
        double uy = points.Sum(p => (p.U - meanU) * (p.Y - meanY));
        double slopeSd = FadingSdDb * 2.0 / Math.Sqrt(uu); // fading is correlated over about four half seconds
        return uu < 1.0 ? null : (uy / uu / (2.0 * k), slopeSd / (2.0 * k));
    }

    // The part of a nudge along the satellite's way, degrees.
    private static double? Along(ReviewLog log, ReviewCall call)
    {
        if (LookAt(log, call.At) is not { } now || LookAt(log, call.At + 5.0) is not { } soon)
        {
            return null;
        }

        AimError way = AimErrors.Between(now.Azimuth, now.Elevation, soon.Azimuth, soon.Elevation);
        double length = way.Total.Radians;
        return length > 0.0
            ? ((call.Nudge.Right.Degrees * way.Right.Radians) + (call.Nudge.Up.Degrees * way.Up.Radians)) / length
            : null;
    }

    private static LookAngles? LookAt(ReviewLog log, double at) => log.Blocks.FirstOrDefault(b => b.Start >= at - ReviewBlock.Seconds && b.Look is not null).Look;
}
