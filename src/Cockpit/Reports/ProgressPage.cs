using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using Cockpit.Session.Review;

namespace Cockpit.Reports;

/// <summary>The comparison of passes as one HTML page that stands alone: each figure over the passes, and the lines by the height of the pass.</summary>
public static class ProgressPage
{
    /// <summary>The page.</summary>
    /// <param name="progress">The comparison.</param>
    /// <param name="sessions">Sessions there are, with those that do not count.</param>
    public static string Of(Progress progress, int sessions)
    {
        ArgumentNullException.ThrowIfNull(progress);
        ImmutableArray<ProgressPass> passes = progress.Passes;
        var page = new StringBuilder(PageParts.Begin("Progress"));
        page.Append("<h1>Progress</h1>\n").Append(When(passes, sessions)).Append(Numbers(progress));
        foreach (ProgressFigure figure in progress.Figures)
        {
            page.Append(PageParts.Chart(Svg.Safe(Heading(figure)), Words(figure), size => ProgressCharts.OverPasses(progress, figure, size), ""));
        }

        page.Append(PageParts.Chart(
            "Lines received by top elevation, %",
            PageParts.Key("dot", "a pass") + PageParts.Key("hollow", "one that was simulated") + PageParts.Key("mean", "mean of its band, ± its standard deviation"),
            size => ProgressCharts.ByTop(progress, size),
            "No session watched its pass for 100 s."));
        page.Append(Groups("By top elevation", progress.ByTop)).Append(progress.ByDate.Length > 1 ? Groups("By date", progress.ByDate) : "").Append(Table(passes));
        return page.Append(PageParts.End("A change is named only where the interval of 95 % leaves out zero. Times are UTC.")).ToString();
    }

    private static string When(ImmutableArray<ProgressPass> passes, int sessions)
    {
        string span = passes.IsEmpty ? "" : Text($", {passes[0].FromUtc:d MMMM yyyy} to {passes[^1].FromUtc:d MMMM yyyy}");
        return Text($"<p class=\"when\">{passes.Length} of {sessions} sessions watched at least 100 s of their pass{span}</p>\n");
    }

    private static string Numbers(Progress progress)
    {
        if (progress.Figures.IsEmpty)
        {
            return "";
        }

        var text = new StringBuilder("<dl class=\"figures\">\n");
        foreach (ProgressFigure figure in progress.Figures)
        {
            string spread = figure.Points.Length > 1 ? Text($"± {Number(figure.Deviation, figure)} over {figure.Points.Length} passes") : "one pass";
            text.Append(PageParts.Number(Svg.Safe(figure.Name), Number(figure.Mean, figure) + (figure.Unit.Length > 0 ? " " + Svg.Safe(figure.Unit) : ""), spread));
        }

        return text.Append("</dl>\n").ToString();
    }

    private static string Heading(ProgressFigure figure) => figure.Name switch
    {
        "lines" => "Lines received, %",
        "reaction" => "Reaction, seconds",
        "amount" => "Amount moved, 1 = as called",
        "off amount" => "Error of the amount",
        _ => figure.Unit.Length > 0 ? $"{figure.Name}, {figure.Unit}" : figure.Name,
    };

    private static string Words(ProgressFigure figure) => $"{Change(figure)}.<br>\n" + PageParts.Key("dot", "a pass") + PageParts.Key("hollow", "one that was simulated")
        + PageParts.Key("band", "mean ± standard deviation") + (figure.Trend is { IsCarried: true } ? PageParts.Key("reach", "trend") : "");

    private static string Change(ProgressFigure figure)
    {
        string words = ProgressSummary.Change(figure);
        return Svg.Safe(char.ToUpperInvariant(words[0]) + words[1..]);
    }

    private static string Groups(string heading, ImmutableArray<ProgressGroup> groups)
    {
        if (groups.IsEmpty)
        {
            return "";
        }

        var text = new StringBuilder($"<section>\n<h2>{heading}</h2>\n<div class=\"scroll\" tabindex=\"0\" role=\"region\" aria-label=\"{heading}\"><table>\n<thead><tr><th></th><th class=\"r\">passes</th><th class=\"r\">lines, %</th><th class=\"r\">±</th><th class=\"r\">reaction, s</th><th class=\"r\">amount</th></tr></thead>\n<tbody>\n");
        foreach (ProgressGroup group in groups)
        {
            text.Append(
                CultureInfo.InvariantCulture,
                $"<tr><td class=\"c\">{Svg.Safe(group.Name)}</td><td class=\"r\">{group.Passes}</td><td class=\"r\">{group.Mean:0.0}</td><td class=\"r\">{group.Deviation:0.0}</td><td class=\"r\">{group.ReactionSeconds:0.00}</td><td class=\"r\">{group.Amount:0.00}</td></tr>\n");
        }

        return text.Append("</tbody>\n</table></div>\n</section>\n").ToString();
    }

    private static string Table(ImmutableArray<ProgressPass> passes)
    {
        if (passes.IsEmpty)
        {
            return "";
        }

        var text = new StringBuilder("<section class=\"long\">\n<h2>Passes</h2>\n<div class=\"scroll\" tabindex=\"0\" role=\"region\" aria-label=\"Passes\"><table>\n<thead><tr><th class=\"r\">pass</th><th>UTC</th><th>satellite</th><th>kind</th><th class=\"r\">top</th><th class=\"r\">lines, %</th><th class=\"r\">reaction, s</th><th class=\"r\">amount</th></tr></thead>\n<tbody>\n");
        for (int i = 0; i < passes.Length; i++)
        {
            ProgressPass pass = passes[i];
            text.Append(
                CultureInfo.InvariantCulture,
                $"<tr><td class=\"r\">{i + 1}</td><td class=\"c\">{pass.FromUtc:yyyy-MM-dd HH:mm}</td><td>{Svg.Safe(pass.Satellite)}</td><td>{Svg.Safe(pass.Kind)}</td><td class=\"r\">{pass.TopDegrees:0}°</td><td class=\"r\">{pass.SharePercent:0.0}</td><td class=\"r\">{pass.ReactionSeconds?.Value:0.00}</td><td class=\"r\">{pass.Amount?.Value:0.00}</td></tr>\n");
        }

        return text.Append("</tbody>\n</table></div>\n</section>\n").ToString();
    }

    private static string Number(double value, ProgressFigure figure) => value.ToString("F" + figure.Decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
