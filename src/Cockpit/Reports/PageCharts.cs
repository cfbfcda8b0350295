using System.Collections.Immutable;
using System.Globalization;
using Cockpit.Session.Review;

namespace Cockpit.Reports;

/// <summary>The charts of a page over the time of the pass.</summary>
internal static class PageCharts
{
    private const double Top = 16.0;
    private const double MostDegrees = 30.0;
    private const double DbBelowNeed = 12.0;
    private const int ReachEvery = 8;
    private const int SpreadEvery = 2;

    /// <summary>Level against what a perfect aim could have had.</summary>
    /// <param name="review">The review.</param>
    /// <param name="axis">Its times.</param>
    /// <param name="others">Reviews whose charts stand beside it and have the same axis.</param>
    public static string Level(SessionReview review, PassAxis axis, params ReadOnlySpan<SessionReview> others)
    {
        const double Bottom = 196.0;
        if (LevelSpan(review) is not var (low, high))
        {
            return "";
        }

        foreach (SessionReview other in others)
        {
            (low, high) = LevelSpan(other) is var (least, most) ? (Math.Min(low, least), Math.Max(high, most)) : (low, high);
        }

        var svg = new Svg(axis.Size, Bottom + 20.0, "Level over time against what a perfect aim would have shown", LevelWords(review));
        double Y(double db) => Bottom - ((Bottom - Top) * (Math.Clamp(db, low, high) - low) / (high - low));
        axis.Shade(svg, review, Top, Bottom);
        axis.Draw(svg, Top, Bottom);
        Scale(svg, axis, low, high, Y, high - low > 25.0 ? 10.0 : 5.0);
        axis.Numbers(svg, review, Top - 4.0);
        if (review.NeedDb is { } need && need > low && need < high)
        {
            svg.Line(axis.Size.Left, Y(need), axis.Size.Right, Y(need), "need");
        }

        svg.Path(review.Course.Where((p, i) => i % ReachEvery == 0).Select(p => p.ReachableDb is { } db ? ((double, double)?)(axis.X(p.Utc), Y(db)) : null), "reach");
        svg.Path(review.Course.Select(p => p.LevelDb is { } db ? ((double, double)?)(axis.X(p.Utc), Y(db)) : null), "level");
        return svg.ToString();
    }

    /// <summary>Believed angle between dish and satellite, with its spread.</summary>
    public static string Aim(SessionReview review, PassAxis axis, double beamDegrees)
    {
        const double Bottom = 136.0;
        double high = Math.Max(10.0, Math.Ceiling(review.Course.Select(p => p.OffAxis?.Degrees ?? 0.0).DefaultIfEmpty(0.0).Max() / 5.0) * 5.0);
        high = Math.Min(high, MostDegrees);
        var svg = new Svg(axis.Size, Bottom + 20.0, "Believed angle between dish and satellite over time, against half the beam", AimWords(review, beamDegrees));
        double Y(double degrees) => Bottom - ((Bottom - Top) * Math.Clamp(degrees / high, 0.0, 1.0));
        axis.Shade(svg, review, Top, Bottom);
        axis.Draw(svg, Top, Bottom);
        Scale(svg, axis, 0.0, high, Y, 5.0);
        axis.Numbers(svg, review, Top - 4.0);
        CoursePoint[] known = [.. review.Course.Where((p, i) => i % SpreadEvery == 0 && p is { OffAxis: not null, Dish: not null })];
        IEnumerable<(double, double)?> upper = known.Select(p => ((double, double)?)(axis.X(p.Utc), Y(p.OffAxis!.Value.Degrees + p.Dish!.Spread.Degrees)));
        IEnumerable<(double, double)?> lower = known.Reverse().Select(p => ((double, double)?)(axis.X(p.Utc), Y(p.OffAxis!.Value.Degrees - p.Dish!.Spread.Degrees)));
        svg.Path(upper.Concat(lower), "band", closed: true);
        svg.Line(axis.Size.Left, Y(beamDegrees / 2.0), axis.Size.Right, Y(beamDegrees / 2.0), "need");
        svg.Path(review.Course.Select(p => p.OffAxis is { } off ? ((double, double)?)(axis.X(p.Utc), Y(off.Degrees)) : null), "level");
        return svg.ToString();
    }

    /// <summary>How long after each call the hand began, by the key "moved".</summary>
    public static string Reactions(SessionReview review, PassAxis axis)
    {
        const double Bottom = 96.0;
        ImmutableArray<ReactionPoint> points = review.Hand.Reactions;
        if (points.IsEmpty)
        {
            return "";
        }

        double high = Math.Max(2.0, Math.Ceiling(points.Max(p => p.Seconds)));
        string median = review.Hand.ReactionSeconds is { } r ? string.Create(CultureInfo.InvariantCulture, $"Median {r.Value:0.0} s, spread {r.Sd:0.0} s.") : "Too few for a median.";
        var svg = new Svg(axis.Size, Bottom + 20.0, string.Create(CultureInfo.InvariantCulture, $"Reaction times of {points.Length} answered calls"), median);
        double Y(double seconds) => Bottom - ((Bottom - Top) * seconds / high);
        axis.Draw(svg, Top, Bottom);
        Scale(svg, axis, 0.0, high, Y, high > 6.0 ? 5.0 : 1.0);
        if (review.Hand.ReactionSeconds is { } reaction)
        {
            svg.Line(axis.Size.Left, Y(reaction.Value), axis.Size.Right, Y(reaction.Value), "need");
        }

        foreach (ReactionPoint point in points)
        {
            svg.Line(axis.X(point.Utc), Bottom, axis.X(point.Utc), Y(point.Seconds), "stem");
            svg.Circle(axis.X(point.Utc), Y(point.Seconds), 3.0, "dot");
        }

        return svg.ToString();
    }

    /// <summary>The axis of levels: what lies far below the need makes no difference, and would press the rest into a few pixels.</summary>
    /// <returns>Null where no level was measured.</returns>
    public static (double Low, double High)? LevelSpan(SessionReview review)
    {
        double[] values = [.. review.Course.SelectMany(p => new[] { p.LevelDb, p.ReachableDb }).OfType<double>().Where(double.IsFinite)];
        if (values.Length == 0)
        {
            return null;
        }

        double low = Math.Floor(values.Min() / 5.0) * 5.0;
        low = review.NeedDb is { } need ? Math.Max(low, Math.Floor((need - DbBelowNeed) / 5.0) * 5.0) : low;
        return (low, Math.Max(low + 5.0, Math.Ceiling((values.Max() + 0.5) / 5.0) * 5.0));
    }

    private static string LevelWords(SessionReview review)
    {
        double[] levels = [.. review.Course.Select(p => p.LevelDb).OfType<double>()];
        string need = review.NeedDb is { } db ? string.Create(CultureInfo.InvariantCulture, $" The service needs {db:0.0} dB.") : "";
        return levels.Length == 0 ? "No level was measured." : string.Create(CultureInfo.InvariantCulture, $"The level lies between {levels.Min():0.0} and {levels.Max():0.0} dB.{need}");
    }

    private static string AimWords(SessionReview review, double beamDegrees)
    {
        double[] off = [.. review.Course.Select(p => p.OffAxis?.Degrees).OfType<double>()];
        return off.Length == 0
            ? "Nothing is known about the aim."
            : string.Create(CultureInfo.InvariantCulture, $"Inside half the beam ({beamDegrees / 2.0:0.0}°) for {100.0 * off.Count(o => o < beamDegrees / 2.0) / off.Length:0} % of the time; mean {off.Average():0.0}°.");
    }

    private static void Scale(Svg svg, PassAxis axis, double low, double high, Func<double, double> y, double step)
    {
        for (double value = low; value <= high + 1e-9; value += step)
        {
            svg.Line(axis.Size.Left, y(value), axis.Size.Right, y(value), "grid");
            svg.Text(axis.Size.Left - 5.0, y(value) + 4.0, value.ToString("0", CultureInfo.InvariantCulture), "t", "end");
        }
    }
}
