using System.Globalization;
using Cockpit.Session.Review;

namespace Cockpit.Reports;

/// <summary>The time axis that the charts of a page share.</summary>
/// <param name="review">The review.</param>
internal sealed class PassAxis(SessionReview review)
{
    public const double Width = 560.0;
    public const double Left = 34.0;
    public const double Right = 552.0;

    private readonly double _seconds = Math.Max(1.0, (review.ToUtc - review.FromUtc).TotalSeconds);

    public double X(DateTimeOffset utc) => Left + ((Right - Left) * Math.Clamp((utc - review.FromUtc).TotalSeconds / _seconds, 0.0, 1.0));

    /// <summary>Minutes of UTC below a chart, and lines up through it.</summary>
    public void Draw(Svg svg, double top, double bottom)
    {
        TimeSpan step = TimeSpan.FromMinutes(_seconds > 900 ? 4 : _seconds > 300 ? 2 : _seconds > 100 ? 1 : 0.25);
        long first = ((review.FromUtc.UtcTicks + step.Ticks - 1) / step.Ticks) * step.Ticks;
        for (var at = new DateTimeOffset(first, TimeSpan.Zero); at <= review.ToUtc; at += step)
        {
            svg.Line(X(at), top, X(at), bottom, "grid");
            if (X(at) < Right - 15.0)
            {
                svg.Text(X(at), bottom + 13.0, at.ToString(step < TimeSpan.FromMinutes(1) ? "HH:mm:ss" : "HH:mm", CultureInfo.InvariantCulture), "t", "middle");
            }
        }
    }

    /// <summary>The gaps as shades from top to bottom.</summary>
    public void Shade(Svg svg, double top, double bottom)
    {
        foreach (Gap gap in review.Gaps)
        {
            svg.Box(X(gap.FromUtc), top, X(gap.ToUtc) - X(gap.FromUtc), bottom - top, "shade c-" + CauseWords.NameOf(gap.Cause), PageWords.Hint(gap));
        }
    }
}
