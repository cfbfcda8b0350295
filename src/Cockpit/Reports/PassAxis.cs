using System.Globalization;
using Cockpit.Session.Review;

namespace Cockpit.Reports;

/// <summary>The size of a chart: the same picture is drawn for a wide page and for a narrow one, so that its letters stay legible on both.</summary>
/// <param name="Class">What the style sheet shows it by.</param>
/// <param name="Width">Of the whole picture, its own units, about one pixel.</param>
/// <param name="Left">Left end of the time axis.</param>
/// <param name="Right">Right end.</param>
internal readonly record struct ChartSize(string Class, double Width, double Left, double Right)
{
    public static readonly ChartSize Wide = new("wide", 760.0, 148.0, 744.0);
    public static readonly ChartSize Narrow = new("narrow", 360.0, 34.0, 350.0);

    public bool IsNarrow => Width < 500.0;
}

/// <summary>The time axis that the charts of a page share.</summary>
/// <param name="size">Where it lies.</param>
/// <param name="from">Its left end, UTC.</param>
/// <param name="to">Its right end, UTC.</param>
/// <param name="zero">Minutes are counted from here; null: the axis tells UTC.</param>
internal sealed class PassAxis(ChartSize size, DateTimeOffset from, DateTimeOffset to, DateTimeOffset? zero = null)
{
    private const double LabelWidth = 52.0;
    private static readonly double[] Steps = [5, 10, 15, 30, 60, 120, 240, 300, 600, 1200, 1800, 3600];
    private readonly double _seconds = Math.Max(1.0, (to - from).TotalSeconds);

    /// <summary>The axis of one review.</summary>
    public static PassAxis Of(SessionReview review, ChartSize size) => new(size, review.FromUtc, review.ToUtc);

    public ChartSize Size => size;

    public double X(DateTimeOffset utc) => size.Left + ((size.Right - size.Left) * Math.Clamp((utc - from).TotalSeconds / _seconds, 0.0, 1.0));

    /// <summary>Times below a chart, and lines up through it.</summary>
    public void Draw(Svg svg, double top, double bottom)
    {
        foreach (DateTimeOffset at in Ticks(out bool seconds))
        {
            svg.Line(X(at), top, X(at), bottom + 3.0, "grid");
            double half = seconds ? 20.0 : 12.0;
            if (X(at) > size.Left + half && X(at) < size.Right - half)
            {
                svg.Text(X(at), bottom + 15.0, Label(at, seconds), "t", "middle");
            }
        }

        svg.Line(size.Left, bottom, size.Right, bottom, "axis");
    }

    /// <summary>How high the satellite stands at the times of the axis.</summary>
    public void Elevations(Svg svg, SessionReview review, double y)
    {
        foreach (DateTimeOffset at in Ticks(out _))
        {
            CoursePoint point = review.Course.FirstOrDefault(p => p.Utc >= at);
            if (point.Elevation is { } elevation && X(at) > size.Left + 12.0 && X(at) < size.Right - 12.0)
            {
                svg.Text(X(at), y, string.Create(CultureInfo.InvariantCulture, $"{elevation.Degrees:0}°"), "t", "middle");
            }
        }
    }

    /// <summary>The lost lines as shades from top to bottom, and the numbers of those gaps that have room above.</summary>
    public void Shade(Svg svg, SessionReview review, double top, double bottom)
    {
        foreach (LostRun run in LostRun.Of(review))
        {
            svg.Box(X(run.FromUtc), top, X(run.ToUtc) - X(run.FromUtc), bottom - top, "shade c-" + CauseWords.NameOf(run.Gap.Cause), PageWords.Hint(run.Gap, run.Number));
        }
    }

    /// <summary>Numbers of the gaps, largest first, as far as they have room.</summary>
    public void Numbers(Svg svg, SessionReview review, double y)
    {
        var room = new PageRoom();
        foreach ((Gap gap, int number) in review.Gaps.Select((g, i) => (g, i + 1)).OrderByDescending(g => g.g.Lines))
        {
            double x = X(gap.FromUtc + ((gap.ToUtc - gap.FromUtc) / 2.0));
            string name = number.ToString(CultureInfo.InvariantCulture);
            if (room.Takes(x, y, name, "middle"))
            {
                svg.Text(x, y, name, "n", "middle");
            }
        }
    }

    private IEnumerable<DateTimeOffset> Ticks(out bool seconds)
    {
        double most = (size.Right - size.Left) / LabelWidth;
        double step = Steps.FirstOrDefault(s => _seconds / s <= most, Steps[^1]);
        seconds = step < 60.0;
        var origin = zero ?? new DateTimeOffset(from.UtcTicks - (from.UtcTicks % TimeSpan.TicksPerDay), TimeSpan.Zero);
        double first = Math.Ceiling((from - origin).TotalSeconds / step) * step;
        return Enumerable.Range(0, (int)(_seconds / step) + 1).Select(i => origin.AddSeconds(first + (i * step))).Where(at => at <= to);
    }

    private string Label(DateTimeOffset at, bool seconds) => zero is { } from0
        ? string.Create(CultureInfo.InvariantCulture, $"{(at < from0 ? "−" : at > from0 ? "+" : "")}{Math.Abs((at - from0).TotalMinutes):0.##}")
        : at.ToString(seconds ? "HH:mm:ss" : "HH:mm", CultureInfo.InvariantCulture);
}
