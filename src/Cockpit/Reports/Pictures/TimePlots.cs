using System.Globalization;
using Cockpit.Session.Review;
using ScottPlot;
using ScottPlot.TickGenerators;

namespace Cockpit.Reports.Pictures;

/// <summary>The charts over the time of the pass.</summary>
internal static class TimePlots
{
    private const double MostDegrees = 30.0;

    /// <summary>All lines in the upper row, the lost ones again in the row of their cause.</summary>
    public static byte[] Lines(SessionReview review, string name)
    {
        (GapCause Cause, int Lines)[] causes = [.. review.Gaps.GroupBy(g => g.Cause).Select(g => (g.Key, g.Sum(gap => gap.Lines))).OrderByDescending(c => c.Item2)];
        Plot plot = Sheet.New(string.Create(CultureInfo.InvariantCulture, $"{name}: {review.Lines.Received} of {review.Lines.Sent} lines received"));
        double length = Sheet.Seconds(review, review.ToUtc);
        double top = causes.Length;
        Box(plot, 0.0, length, top + 0.1, top + 1.6, Sheet.Good);
        foreach (LostRun run in LostRun.Of(review))
        {
            double row = causes.Length - 1 - Array.FindIndex(causes, c => c.Cause == run.Gap.Cause);
            (double from, double to) = (Sheet.Seconds(review, run.FromUtc), Sheet.Seconds(review, run.ToUtc));
            Box(plot, from, to, top + 0.1, top + 1.6, Sheet.Of(run.Gap.Cause));
            Box(plot, from, to, row + 0.15, row + 0.85, Sheet.Of(run.Gap.Cause));
        }

        string[] names = [.. causes.Reverse().Select(c => string.Create(CultureInfo.InvariantCulture, $"{CauseWords.NameOf(c.Cause)} {c.Lines}")), string.Create(CultureInfo.InvariantCulture, $"all lines {review.Lines.Sent}")];
        plot.Axes.Left.TickGenerator = new NumericManual([.. Enumerable.Range(0, causes.Length).Select(i => i + 0.5), top + 0.85], names);
        plot.Axes.Left.MajorTickStyle.Length = 0;
        plot.Axes.SetLimitsY(0.0, top + 1.7);
        plot.Times(review);
        return plot.Png(Sheet.Width, 260 + (56 * causes.Length));
    }

    /// <summary>Level against what a perfect aim could have had; null where none was measured.</summary>
    public static byte[]? Level(SessionReview review, string name)
    {
        if (PageCharts.LevelSpan(review) is not var (low, high))
        {
            return null;
        }

        Plot plot = Sheet.New(name + ": level");
        Shade(plot, review, low, high);
        Sheet.Draw(plot, Points(review, p => p.ReachableDb), Sheet.Ink, 1.2f, LinePattern.DenselyDashed).LegendText = "with perfect aim";
        Sheet.Draw(plot, Points(review, p => p.LevelDb), Sheet.Line, 1.3f).LegendText = "measured";
        if (review.NeedDb is { } need)
        {
            Need(plot, need, "what the service needs");
        }

        plot.YLabel("dB", Sheet.Letter);
        return Finish(plot, review, low, high, 760);
    }

    /// <summary>Believed angle between dish and satellite, with its spread.</summary>
    public static byte[] Aim(SessionReview review, string name, double beamDegrees)
    {
        double high = Math.Clamp(Math.Ceiling(review.Course.Select(p => p.OffAxis?.Degrees ?? 0.0).DefaultIfEmpty(0.0).Max() / 5.0) * 5.0, 10.0, MostDegrees);
        Plot plot = Sheet.New(name + ": aim error");
        Shade(plot, review, 0.0, high);
        CoursePoint[] known = [.. review.Course.Where(p => p is { OffAxis: not null, Dish: not null })];
        if (known.Length > 1)
        {
            double[] times = [.. known.Select(p => Sheet.Seconds(review, p.Utc))];
            var spread = plot.Add.FillY(
                times,
                [.. known.Select(p => Math.Clamp(p.OffAxis!.Value.Degrees - p.Dish!.Spread.Degrees, 0.0, high))],
                [.. known.Select(p => Math.Clamp(p.OffAxis!.Value.Degrees + p.Dish!.Spread.Degrees, 0.0, high))]);
            spread.FillColor = Sheet.Line.WithAlpha(0.17);
            spread.LineWidth = 0;
            spread.LegendText = "its spread";
        }

        Sheet.Draw(plot, Points(review, p => p.OffAxis?.Degrees), Sheet.Line, 1.3f).LegendText = "between dish and satellite, as believed";
        Need(plot, beamDegrees / 2.0, "half the beam");
        plot.YLabel("degrees", Sheet.Letter);
        return Finish(plot, review, 0.0, high, 600);
    }

    /// <summary>How long after each call the hand began; null where nothing is known.</summary>
    public static byte[]? Reactions(SessionReview review, string name)
    {
        if (review.Hand.Reactions.IsEmpty)
        {
            return null;
        }

        Plot plot = Sheet.New(name + ": reaction to each call");
        foreach (ReactionPoint point in review.Hand.Reactions)
        {
            double at = Sheet.Seconds(review, point.Utc);
            Sheet.Draw(plot, [(at, 0.0), (at, point.Seconds)], Sheet.Line.WithAlpha(0.5), 1f);
            plot.Add.Marker(at, point.Seconds, MarkerShape.FilledCircle, 6, Sheet.Line);
        }

        if (review.Hand.ReactionSeconds is { } median)
        {
            Need(plot, median.Value, "median");
        }

        plot.YLabel("seconds", Sheet.Letter);
        return Finish(plot, review, 0.0, Math.Max(2.0, Math.Ceiling(review.Hand.Reactions.Max(p => p.Seconds))), 520);
    }

    private static byte[] Finish(Plot plot, SessionReview review, double low, double high, int height)
    {
        plot.Axes.SetLimitsY(low, high);
        plot.Times(review);
        plot.Keys();
        return plot.Png(Sheet.Width, height);
    }

    private static IEnumerable<(double, double)?> Points(SessionReview review, Func<CoursePoint, double?> value) =>
        review.Course.Select(p => value(p) is { } v ? ((double, double)?)(Sheet.Seconds(review, p.Utc), v) : null);

    private static void Need(Plot plot, double at, string words)
    {
        var line = plot.Add.HorizontalLine(at, 1.4f, Sheet.Ink, LinePattern.Dotted);
        line.LegendText = words;
    }

    // The lost lines as shades; the numbers of the larger gaps above them.
    private static void Shade(Plot plot, SessionReview review, double low, double high)
    {
        foreach (LostRun run in LostRun.Of(review))
        {
            Box(plot, Sheet.Seconds(review, run.FromUtc), Sheet.Seconds(review, run.ToUtc), low, high, Sheet.Of(run.Gap.Cause).WithAlpha(0.28));
        }

        double pixel = Sheet.Seconds(review, review.ToUtc) / 700.0;
        var room = new PageRoom();
        foreach ((Gap gap, int number) in review.Gaps.Select((g, i) => (g, i + 1)).OrderByDescending(g => g.g.Lines))
        {
            double at = Sheet.Seconds(review, gap.FromUtc + ((gap.ToUtc - gap.FromUtc) / 2.0));
            string name = number.ToString(CultureInfo.InvariantCulture);
            if (room.Takes(at / pixel, 0.0, name, "middle"))
            {
                plot.Write(name, at, high, Alignment.UpperCenter, offsetY: 2);
            }
        }
    }

    private static void Box(Plot plot, double left, double right, double bottom, double top, Color colour)
    {
        var box = plot.Add.Rectangle(left, right, bottom, top);
        box.FillColor = colour;
        box.LineWidth = 0;
    }
}
