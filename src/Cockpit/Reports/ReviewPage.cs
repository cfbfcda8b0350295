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
        string name = Svg.Safe(review.SatelliteName);
        var page = new StringBuilder(PageParts.Begin(string.Create(CultureInfo.InvariantCulture, $"{name}, {review.FromUtc:yyyy-MM-dd HH:mm} UTC")));
        page.Append("<h1>").Append(name).Append("</h1>\n").Append(When(review, settings)).Append(Figures(review));
        if (review.Advice.Length > 0)
        {
            page.Append("<section>\n<h2>Next time</h2>\n<ol class=\"advice\">\n").AppendJoin("", review.Advice.Select(a => $"<li>{Svg.Safe(a.Text)}</li>\n")).Append("</ol>\n</section>\n");
        }

        page.Append(PageParts.Chart("Picture lines", Lines(), size => PageLanes.Of(review, PassAxis.Of(review, size)), ""));
        page.Append(PageParts.Chart("Level, dB", Levels(review), size => PageCharts.Level(review, PassAxis.Of(review, size)), "No level was measured."));
        page.Append(PageParts.Chart("Aim error, degrees", Aims(), size => PageCharts.Aim(review, PassAxis.Of(review, size), beamWidth.Degrees), ""));
        page.Append(PageParts.Chart(
            "Reaction, seconds", Reactions(review), size => PageCharts.Reactions(review, PassAxis.Of(review, size)), "No call was answered with the key \"moved\", so no reaction is known."));
        page.Append("<div class=\"two\">\n").Append(PageParts.Figure("Sky", Sky(settings), PageSky.Of(review, settings, beamWidth.Degrees), ""));
        page.Append(PageParts.Figure("Ground", Ground(halfAngle), PageMap.Of(review, settings, halfAngle), "The session holds no elements that a map could be drawn from.")).Append("</div>\n");
        page.Append(PageParts.Causes(review)).Append(PageParts.Gaps(review));
        return page.Append(PageParts.End($"{Coastlines.Credit}. Times are UTC.")).ToString();
    }

    /// <summary>When, where, with what.</summary>
    internal static string When(SessionReview review, SessionSettings settings) => string.Create(
        CultureInfo.InvariantCulture,
        $"<p class=\"when\">{review.FromUtc:d MMMM yyyy, HH:mm:ss} to {review.ToUtc:HH:mm:ss} UTC, {Svg.Safe(settings.StationName)}, dish {settings.DishDiameterMetres:0.0#} m, top {review.HighestElevation.Degrees:0}°</p>\n");

    private static string Figures(SessionReview review)
    {
        LineCount lines = review.Lines;
        double share = lines.Sent > 0 ? 100.0 * lines.Received / lines.Sent : 0.0;
        string by = lines.By == LineEvidence.Frames ? "the decoder's count" : "the level, for the feed counts no frames";
        string unwatched = lines.Unwatched > 0 ? Text($"; {lines.Unwatched} more were sent outside the session") : "";
        var text = new StringBuilder("<dl class=\"figures\">\n");
        text.Append(PageParts.Number("received", Text($"{share:0.0} %"), Text($"{lines.Received} of {lines.Sent} lines")));
        text.Append(PageParts.Number("lost", Text($"{lines.Lost}"), Text($"lines in {review.Gaps.Length} {(review.Gaps.Length == 1 ? "gap" : "gaps")}, by {by}{unwatched}")));
        if (review.Hand.ReactionSeconds is { } reaction)
        {
            text.Append(PageParts.Number("reaction", Text($"{reaction.Value:0.0} s"), Text($"± {reaction.Sd:0.0} s over {reaction.Count} calls")));
        }

        if (review.Hand.Amount is { } amount)
        {
            text.Append(PageParts.Number("amount", Text($"{amount.Value:0.00}"), Text($"± {amount.Sd:0.00} of what was called")));
        }

        if (review.Doppler is { } slip)
        {
            text.Append(PageParts.Number("carrier", Text($"{Math.Abs(slip.SlipSeconds):0.0} s"), Text($"{(slip.SlipSeconds >= 0.0 ? "early" : "late")} ± {slip.Sd:0.0} s against elements and clock")));
        }

        return text.Append("</dl>\n").ToString();
    }

    private static string Lines() => PageParts.Key("good", "received") + "One column a line: all of them above, the lost ones again in the row of their cause.";

    private static string Levels(SessionReview review) => PageParts.Key("level", "measured") + PageParts.Key("reach", "with perfect aim")
        + (review.NeedDb is null ? "" : PageParts.Key("need", "what the service needs")) + "Shades are lost lines; numbers are those of the table of gaps.";

    private static string Aims() => PageParts.Key("level", "believed angle between dish and satellite") + PageParts.Key("band", "its spread") + PageParts.Key("need", "half the beam");

    private static string Reactions(SessionReview review) => PageParts.Key("dot", "from a call to the begin of the move, by the key \"moved\"")
        + (review.Hand.ReactionSeconds is null ? "" : PageParts.Key("need", "median"));

    private static string Sky(SessionSettings settings) => PageParts.Key("sat", "satellite, thick where lines were lost") + PageParts.Key("dish", "dish as believed") + PageParts.Key("band", "its spread")
        + (settings.Horizon() is null ? "" : PageParts.Key("skyline", "skyline"));

    private static string Ground(Angle halfAngle) => PageParts.Key("sat", "track") + PageParts.Key("swath", Text($"swath of ± {halfAngle.Degrees:0.0}°, lost lines across it")) + PageParts.Key("here", "station");

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
