using System.Globalization;
using Cockpit.Session.Review;

namespace Cockpit.Reports;

/// <summary>One column a picture line: all of them in the upper row, the lost ones again in the row of their cause, so that no colour is needed.</summary>
internal static class PageLanes
{
    private const double Top = 4.0;
    private const double StripHeight = 30.0;
    private const double LaneHeight = 11.0;

    /// <summary>The strip.</summary>
    public static string Of(SessionReview review, PassAxis axis)
    {
        (GapCause Cause, int Lines)[] causes = [.. review.Gaps.GroupBy(g => g.Cause).Select(g => (g.Key, g.Sum(gap => gap.Lines))).OrderByDescending(c => c.Item2)];
        bool narrow = axis.Size.IsNarrow;
        double pitch = narrow ? 27.0 : 17.0;
        double firstLane = Top + StripHeight + 8.0;
        double bottom = firstLane + (pitch * causes.Length);
        var svg = new Svg(axis.Size, bottom + 33.0, PictureName(review), Description(causes));
        axis.Draw(svg, Top, bottom);
        axis.Elevations(svg, review, bottom + 28.0);
        svg.Box(axis.X(review.FromUtc), Top, axis.X(review.ToUtc) - axis.X(review.FromUtc), StripHeight, "good");
        LostRun[] runs = [.. LostRun.Of(review)];
        foreach (LostRun run in runs)
        {
            svg.Box(axis.X(run.FromUtc), Top, axis.X(run.ToUtc) - axis.X(run.FromUtc), StripHeight, "lost c-" + CauseWords.NameOf(run.Gap.Cause), PageWords.Hint(run.Gap, run.Number));
        }

        if (!narrow)
        {
            svg.Text(0.0, Top + 19.0, "all lines", "t strong");
            svg.Text(axis.Size.Left - 8.0, Top + 19.0, review.Lines.Sent.ToString(CultureInfo.InvariantCulture), "t strong", "end");
            svg.Text(0.0, bottom + 15.0, "UTC", "t");
            svg.Text(0.0, bottom + 28.0, "elevation", "t");
        }

        for (int i = 0; i < causes.Length; i++)
        {
            Lane(svg, axis, firstLane + (pitch * i), causes[i], runs);
        }

        return svg.ToString();
    }

    private static void Lane(Svg svg, PassAxis axis, double top, (GapCause Cause, int Lines) cause, LostRun[] runs)
    {
        bool narrow = axis.Size.IsNarrow;
        string name = CauseWords.NameOf(cause.Cause);
        string count = cause.Lines.ToString(CultureInfo.InvariantCulture);
        double y = narrow ? top + 12.0 : top;
        svg.Text(narrow ? axis.Size.Left : 0.0, narrow ? top + 8.5 : top + 9.5, name, "t strong");
        svg.Text(narrow ? axis.Size.Right : axis.Size.Left - 8.0, narrow ? top + 8.5 : top + 9.5, count, "t strong", "end");
        svg.Box(axis.Size.Left, y, axis.Size.Right - axis.Size.Left, LaneHeight, "lane");
        foreach (LostRun run in runs.Where(r => r.Gap.Cause == cause.Cause))
        {
            svg.Box(axis.X(run.FromUtc), y, Math.Max(0.8, axis.X(run.ToUtc) - axis.X(run.FromUtc)), LaneHeight, "lost c-" + name);
        }
    }

    private static string PictureName(SessionReview review) =>
        string.Create(CultureInfo.InvariantCulture, $"Picture lines over time: {review.Lines.Received} received, {review.Lines.Lost} lost");

    private static string Description((GapCause Cause, int Lines)[] causes) => causes.Length == 0
        ? "No line was lost."
        : "Lost lines by cause: " + string.Join(", ", causes.Select(c => string.Create(CultureInfo.InvariantCulture, $"{CauseWords.NameOf(c.Cause)} {c.Lines}"))) + ". The table of gaps tells when.";
}
