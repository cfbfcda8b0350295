using System.Globalization;
using System.Text;
using Cockpit.Core.Units;
using Cockpit.Session.Events;
using Cockpit.Session.Review;

namespace Cockpit.Reports;

/// <summary>A review as one HTML page that stands alone: no script, no font, no picture from elsewhere; light, dark and printed.</summary>
public static class ReviewPage
{
    /// <summary>The page.</summary>
    /// <param name="review">The review.</param>
    /// <param name="settings">What the session was about.</param>
    /// <param name="beamWidth">Half-power beamwidth of its dish.</param>
    /// <param name="halfAngle">The instrument's scan to either side of the vertical.</param>
    public static string Of(SessionReview review, SessionSettings settings, Angle beamWidth, Angle halfAngle)
    {
        ArgumentNullException.ThrowIfNull(review);
        ArgumentNullException.ThrowIfNull(settings);
        string title = Svg.Safe(string.Create(CultureInfo.InvariantCulture, $"{review.SatelliteName}, {review.FromUtc:yyyy-MM-dd HH:mm} UTC"));
        var page = new StringBuilder();
        page.Append("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n");
        page.Append("<meta name=\"color-scheme\" content=\"light dark\">\n<title>").Append(title).Append("</title>\n<style>\n").Append(PageStyle.Css).Append("</style>\n</head>\n<body>\n<main>\n");
        page.Append("<h1>").Append(title).Append("</h1>\n").Append(Head(review, settings));
        Figure(page, "Picture lines", PageCharts.Lines(review) + Legend(review), "One column a line: pale received, coloured lost.");
        if (review.Advice.Length > 0)
        {
            page.Append("<section>\n<h2>Next time</h2>\n<ol>\n").AppendJoin("", review.Advice.Select(a => $"<li>{Svg.Safe(a.Text)}</li>\n")).Append("</ol>\n</section>\n");
        }

        Figure(page, "Level", PageCharts.Level(review), "Solid: measured. Dashed: what a perfectly pointed dish would have shown, by the level's own course. Shades: gaps.");
        Figure(page, "Aim", PageCharts.Aim(review, beamWidth.Degrees), "Believed angle between dish and satellite, and how well it was known.");
        page.Append("<div class=\"two\">\n");
        Figure(page, "Sky", PageSky.Of(review), "North up, east right. Thick: the satellite, coloured where lines were lost. Thin: the dish, as believed; circles: how well.");
        Figure(
            page,
            "Ground",
            PageMap.Of(review, settings, halfAngle),
            string.Create(CultureInfo.InvariantCulture, $"Track, swath of ± {halfAngle.Degrees:0.0}° and lost lines. The dot is the station. {Coastlines.Credit}."));
        page.Append("</div>\n");
        Figure(page, "Reaction", PageCharts.Reactions(review), "From each call to the begin of the move, where the key \"moved\" tells.");
        page.Append(Table(review)).Append("</main>\n</body>\n</html>\n");
        return page.ToString();
    }

    private static string Head(SessionReview review, SessionSettings settings)
    {
        LineCount lines = review.Lines;
        double share = lines.Sent > 0 ? 100.0 * lines.Received / lines.Sent : 0.0;
        string by = lines.By == LineEvidence.Frames ? "the decoder's count" : "the level";
        return string.Create(
            CultureInfo.InvariantCulture,
            $"<p class=\"big\"><b>{lines.Received}</b> of {lines.Sent} lines received, {share:0.0} %</p>\n<p>{lines.Lost} lost, by {by}. {Svg.Safe(settings.StationName)}, dish {settings.DishDiameterMetres:0.0#} m, top {review.HighestElevation.Degrees:0}°, {review.FromUtc:HH:mm:ss} to {review.ToUtc:HH:mm:ss} UTC.</p>\n");
    }

    private static void Figure(StringBuilder page, string heading, string picture, string words) =>
        page.Append("<section>\n<h2>").Append(heading).Append("</h2>\n<figure>\n").Append(picture).Append("<figcaption>").Append(words).Append("</figcaption>\n</figure>\n</section>\n");

    private static string Legend(SessionReview review) => review.Gaps.IsEmpty ? "" : "<ul class=\"legend\">\n" + string.Concat(review.Gaps.GroupBy(g => g.Cause)
        .OrderByDescending(g => g.Sum(gap => gap.Lines))
        .Select(g => string.Create(
            CultureInfo.InvariantCulture,
            $"<li><svg viewBox=\"0 0 10 10\" aria-hidden=\"true\"><rect class=\"lost c-{CauseWords.NameOf(g.Key)}\" width=\"10\" height=\"10\"/></svg> <b>{CauseWords.NameOf(g.Key)}</b> {g.Sum(gap => gap.Lines)} lines: {Svg.Safe(PageWords.Meaning(g.Key))}</li>\n"))) + "</ul>\n";

    private static string Table(SessionReview review)
    {
        if (review.Gaps.IsEmpty)
        {
            return "";
        }

        var rows = string.Concat(review.Gaps.Select(g => string.Create(
            CultureInfo.InvariantCulture,
            $"<tr><td>{g.FromUtc:HH:mm:ss.f}</td><td>{(g.ToUtc - g.FromUtc).TotalSeconds:0.0}</td><td>{g.Lines}</td><td>{CauseWords.NameOf(g.Cause)}</td><td>{100.0 * g.Confidence:0} %</td></tr>\n")));
        return "<section>\n<h2>Gaps</h2>\n<table>\n<thead><tr><th>UTC</th><th>seconds</th><th>lines</th><th>cause</th><th>sure</th></tr></thead>\n<tbody>\n" + rows + "</tbody>\n</table>\n</section>\n";
    }
}
