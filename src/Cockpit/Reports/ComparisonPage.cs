using System.Globalization;
using System.Text;
using Cockpit.Core.Units;

namespace Cockpit.Reports;

/// <summary>Two sessions side by side as one HTML page that stands alone: every chart twice on one time axis.</summary>
public static class ComparisonPage
{
    /// <summary>The page.</summary>
    /// <param name="both">The two.</param>
    /// <param name="halfAngle">The instrument's scan to either side of the vertical.</param>
    public static string Of(Comparison both, Angle halfAngle)
    {
        ArgumentNullException.ThrowIfNull(both);
        (ReviewedSession a, ReviewedSession b) = (both.A, both.B);
        string title = Svg.Safe(string.Create(CultureInfo.InvariantCulture, $"{a.Review.SatelliteName}, {a.Review.FromUtc:yyyy-MM-dd HH:mm} UTC, twice"));
        var page = new StringBuilder(PageParts.Begin(title));
        page.Append("<h1>").Append(Svg.Safe(a.Review.SatelliteName)).Append(both.SamePass ? ", one pass twice" : ", two passes").Append("</h1>\n");
        page.Append("<p class=\"when\">").AppendJoin("<br>\n", ComparisonSummary.Sentences(both).Select(Svg.Safe)).Append("</p>\n").Append(Table(both));
        page.Append(Twice(both, "Picture lines", PageParts.Key("good", "received"), PageLanes.Of));
        page.Append(Twice(both, "Level, dB", PageParts.Key("level", "measured") + PageParts.Key("reach", "with perfect aim") + PageParts.Key("need", "need"), (review, axis) => PageCharts.Level(review, axis, a.Review, b.Review)));
        page.Append(Twice(both, "Aim error, degrees", PageParts.Key("level", "as believed") + PageParts.Key("band", "its spread") + PageParts.Key("need", "half the beam"), (review, axis) =>
            PageCharts.Aim(review, axis, (ReferenceEquals(review, a.Review) ? a : b).Log.BeamWidth.Degrees)));
        page.Append(Twice(both, "Reaction, seconds", PageParts.Key("dot", "from a call to the begin of the move") + PageParts.Key("need", "median"), PageCharts.Reactions));
        page.Append(Two("Sky", s => PageSky.Of(s.Review, s.Log.Settings, s.Log.BeamWidth.Degrees), both));
        page.Append(Two("Ground", s => PageMap.Of(s.Review, s.Log.Settings, halfAngle), both));
        return page.Append(PageParts.End($"{Coastlines.Credit}.")).ToString();
    }

    // One time axis for both: UTC where it is one pass, else minutes from the highest point.
    private static PassAxis Axis(Comparison both, ReviewedSession session, ChartSize size)
    {
        (ReviewedSession a, ReviewedSession b) = (both.A, both.B);
        TimeSpan shift = both.SamePass ? TimeSpan.Zero : b.HighestUtc - a.HighestUtc;
        DateTimeOffset from = a.Review.FromUtc < b.Review.FromUtc - shift ? a.Review.FromUtc : b.Review.FromUtc - shift;
        DateTimeOffset to = a.Review.ToUtc > b.Review.ToUtc - shift ? a.Review.ToUtc : b.Review.ToUtc - shift;
        TimeSpan own = ReferenceEquals(session, b) ? shift : TimeSpan.Zero;
        return new PassAxis(size, from + own, to + own, both.SamePass ? null : session.HighestUtc);
    }

    private static string Twice(Comparison both, string heading, string words, Func<Session.Review.SessionReview, PassAxis, string> draw)
    {
        var text = new StringBuilder($"<section>\n<h2>{heading}</h2>\n<figure>\n<figcaption>{words}</figcaption>\n");
        foreach ((string name, ReviewedSession session) in ((string, ReviewedSession)[])[("A", both.A), ("B", both.B)])
        {
            string picture = draw(session.Review, Axis(both, session, ChartSize.Wide)) + draw(session.Review, Axis(both, session, ChartSize.Narrow));
            text.Append("<h3>").Append(name).Append("</h3>\n").Append(picture.Length > 0 ? picture : "<p>Nothing is known.</p>\n");
        }

        return text.Append("</figure>\n</section>\n").ToString();
    }

    private static string Two(string heading, Func<ReviewedSession, string> draw, Comparison both) =>
        "<div class=\"two\">\n" + PageParts.Figure(heading + ", A", "", draw(both.A), "The session holds no elements.") + PageParts.Figure(heading + ", B", "", draw(both.B), "The session holds no elements.") + "</div>\n";

    private static string Table(Comparison both)
    {
        var text = new StringBuilder("<div class=\"scroll\" tabindex=\"0\" role=\"region\" aria-label=\"Both in figures\"><table>\n<thead><tr><th></th><th>A</th><th>B</th></tr></thead>\n<tbody>\n");
        foreach ((string name, string a, string b) in ComparisonSummary.Rows(both))
        {
            text.Append(CultureInfo.InvariantCulture, $"<tr><td class=\"c\">{Svg.Safe(name)}</td><td>{Svg.Safe(a)}</td><td>{Svg.Safe(b)}</td></tr>\n");
        }

        return text.Append("</tbody>\n</table></div>\n").ToString();
    }
}
