using System.Collections.Immutable;
using System.Globalization;
using Cockpit.Session.Review;

namespace Cockpit.Reports;

/// <summary>The charts of a page over the time of the pass.</summary>
internal static class PageCharts
{
    private const double Top = 8.0;

    /// <summary>One column a picture line: received, or lost by its cause.</summary>
    public static string Lines(SessionReview review)
    {
        var svg = new Svg(PassAxis.Width, 62.0, string.Create(CultureInfo.InvariantCulture, $"Picture lines over time: {review.Lines.Received} received, {review.Lines.Lost} lost"));
        var axis = new PassAxis(review);
        svg.Box(PassAxis.Left, Top, PassAxis.Right - PassAxis.Left, 34.0, "good");
        DateTimeOffset At(int line) => review.FromUtc + TimeSpan.FromSeconds(line / LineLedger.LinesPerSecond);
        ImmutableArray<LineState> states = review.LineStates;
        for (int line = 0; line < states.Length; line++)
        {
            int first = line;
            while (line < states.Length && states[line] == LineState.Lost)
            {
                line++;
            }

            if (line > first)
            {
                Gap? gap = review.Gaps.FirstOrDefault(g => g.FromUtc <= At(first) + TimeSpan.FromSeconds(0.1) && g.ToUtc >= At(line) - TimeSpan.FromSeconds(0.1));
                string cause = CauseWords.NameOf(gap?.Cause ?? GapCause.Unknown);
                svg.Box(axis.X(At(first)), Top, axis.X(At(line)) - axis.X(At(first)), 34.0, "lost c-" + cause, gap is null ? null : PageWords.Hint(gap));
            }
        }

        axis.Draw(svg, Top + 34.0, Top + 37.0);
        return svg.ToString();
    }

    /// <summary>Level against what a perfect aim could have had.</summary>
    public static string Level(SessionReview review)
    {
        const double Bottom = 168.0;
        var svg = new Svg(PassAxis.Width, 186.0, "Level over time against what a perfect aim would have shown, gaps shaded by cause");
        double[] values = [.. review.Course.SelectMany(p => new[] { p.LevelDb, p.ReachableDb }).OfType<double>().Where(double.IsFinite)];
        if (values.Length == 0)
        {
            return "<p>No level was measured.</p>\n";
        }

        double low = Math.Floor(values.Min() / 5.0) * 5.0;
        double high = Math.Max(low + 5.0, Math.Ceiling(values.Max() / 5.0) * 5.0);
        double Y(double db) => Bottom - ((Bottom - Top) * (db - low) / (high - low));
        var axis = new PassAxis(review);
        axis.Shade(svg, Top, Bottom);
        axis.Draw(svg, Top, Bottom);
        Scale(svg, low, high, Y, high - low > 25.0 ? 10.0 : 5.0, "dB");
        if (review.NeedDb is { } need && need > low && need < high)
        {
            svg.Line(PassAxis.Left, Y(need), PassAxis.Right, Y(need), "need");
            svg.Text(PassAxis.Right, Y(need) - 3.0, "need", "t", "end");
        }

        svg.Path(review.Course.Select(p => p.ReachableDb is { } db ? ((double, double)?)(axis.X(p.Utc), Y(db)) : null), "reach");
        svg.Path(review.Course.Select(p => p.LevelDb is { } db ? ((double, double)?)(axis.X(p.Utc), Y(db)) : null), "level");
        return svg.ToString();
    }

    /// <summary>Believed angle between dish and satellite, with its spread.</summary>
    public static string Aim(SessionReview review, double beamDegrees)
    {
        const double Bottom = 128.0;
        var svg = new Svg(PassAxis.Width, 146.0, "Believed aim error over time with its spread, against half the beam");
        double high = Math.Max(10.0, Math.Ceiling(review.Course.Select(p => p.OffAxis?.Degrees ?? 0.0).DefaultIfEmpty(0.0).Max() / 5.0) * 5.0);
        high = Math.Min(high, 30.0);
        double Y(double degrees) => Bottom - ((Bottom - Top) * Math.Clamp(degrees / high, 0.0, 1.0));
        var axis = new PassAxis(review);
        axis.Shade(svg, Top, Bottom);
        axis.Draw(svg, Top, Bottom);
        Scale(svg, 0.0, high, Y, 5.0, "deg");
        CoursePoint[] known = [.. review.Course.Where(p => p is { OffAxis: not null, Dish: not null })];
        IEnumerable<(double, double)?> upper = known.Select(p => ((double, double)?)(axis.X(p.Utc), Y(p.OffAxis!.Value.Degrees + p.Dish!.Spread.Degrees)));
        IEnumerable<(double, double)?> lower = known.Reverse().Select(p => ((double, double)?)(axis.X(p.Utc), Y(p.OffAxis!.Value.Degrees - p.Dish!.Spread.Degrees)));
        svg.Path(upper.Concat(lower), "band", closed: true);
        svg.Line(PassAxis.Left, Y(beamDegrees / 2.0), PassAxis.Right, Y(beamDegrees / 2.0), "need");
        svg.Text(PassAxis.Right, Y(beamDegrees / 2.0) - 3.0, "half the beam", "t", "end");
        svg.Path(review.Course.Select(p => p.OffAxis is { } off ? ((double, double)?)(axis.X(p.Utc), Y(off.Degrees)) : null), "level");
        return svg.ToString();
    }

    /// <summary>How long after each call the hand began, by the key "moved".</summary>
    public static string Reactions(SessionReview review)
    {
        const double Bottom = 88.0;
        ImmutableArray<ReactionPoint> points = review.Hand.Reactions;
        if (points.IsEmpty)
        {
            return "<p>No call was answered with the key \"moved\", so no reaction is known.</p>\n";
        }

        var svg = new Svg(PassAxis.Width, 106.0, $"Reaction times of {points.Length} answered calls");
        double high = Math.Max(2.0, Math.Ceiling(points.Max(p => p.Seconds)));
        double Y(double seconds) => Bottom - ((Bottom - Top) * seconds / high);
        var axis = new PassAxis(review);
        axis.Draw(svg, Top, Bottom);
        Scale(svg, 0.0, high, Y, high > 6.0 ? 5.0 : 1.0, "s");
        foreach (ReactionPoint point in points)
        {
            svg.Circle(axis.X(point.Utc), Y(point.Seconds), 3.0, "dot");
        }

        return svg.ToString();
    }

    private static void Scale(Svg svg, double low, double high, Func<double, double> y, double step, string unit)
    {
        for (double value = low; value <= high + 1e-9; value += step)
        {
            svg.Line(PassAxis.Left, y(value), PassAxis.Right, y(value), "grid");
            svg.Text(PassAxis.Left - 4.0, y(value) + 4.0, value.ToString("0", CultureInfo.InvariantCulture), "t", "end");
        }

        svg.Text(PassAxis.Left + 4.0, Top + 10.0, unit);
    }
}
