using System.Globalization;
using System.Text;
using Cockpit.Session.Review;

namespace Cockpit.Reports;

/// <summary>The parts of a page that are no pictures.</summary>
internal static class PageParts
{
    /// <summary>Everything up to the first heading.</summary>
    /// <param name="title">Safe already.</param>
    /// <param name="more">Added to the style sheet of all pages.</param>
    public static string Begin(string title, string more = "") =>
        $"""
        <!DOCTYPE html>
        <html lang="en">
        <head>
        <meta charset="utf-8">
        <meta name="viewport" content="width=device-width, initial-scale=1">
        <meta name="color-scheme" content="light dark">
        <title>{title}</title>
        <style>
        {PageStyle.Css}{more}</style>
        </head>
        <body>
        <main>

        """;

    /// <summary>The end of the page.</summary>
    /// <param name="words">What stands below everything; safe already.</param>
    public static string End(string words) => $"<footer>{words}</footer>\n</main>\n</body>\n</html>\n";

    /// <summary>A chart for wide and for narrow pages with its heading; nothing where there is no picture, but the sentence that says why.</summary>
    /// <param name="heading">Of the section.</param>
    /// <param name="words">What the lines in it are; safe already.</param>
    /// <param name="picture">Draws it for a size.</param>
    /// <param name="missing">Stands in its place where there is none.</param>
    public static string Chart(string heading, string words, Func<ChartSize, string> picture, string missing) =>
        Figure(heading, words, picture(ChartSize.Wide) + picture(ChartSize.Narrow), missing);

    /// <summary>A picture of one size.</summary>
    public static string Figure(string heading, string words, string picture, string missing) => picture.Length == 0
        ? $"<section>\n<h2>{heading}</h2>\n<p>{missing}</p>\n</section>\n"
        : $"<section>\n<h2>{heading}</h2>\n<figure>\n<figcaption>{words}</figcaption>\n{picture}</figure>\n</section>\n";

    /// <summary>A sample of a line with its name.</summary>
    /// <param name="kind">Its class.</param>
    /// <param name="words">What it means.</param>
    public static string Key(string kind, string words) => kind is "dot" or "here" or "hollow"
        ? $"<span class=\"key\"><svg viewBox=\"0 0 24 11\" aria-hidden=\"true\"><circle class=\"{kind}\" cx=\"12\" cy=\"5.5\" r=\"3.5\"/></svg>{words}</span> "
        : kind is "band" or "good" or "swath" or "skyline"
        ? $"<span class=\"key\"><svg viewBox=\"0 0 24 11\" aria-hidden=\"true\"><rect class=\"{kind}\" width=\"24\" height=\"11\"/></svg>{words}</span> "
        : $"<span class=\"key\"><svg viewBox=\"0 0 24 11\" aria-hidden=\"true\"><path class=\"{kind}\" d=\"M0 5.5H24\"/></svg>{words}</span> ";

    /// <summary>A figure that is read at a glance.</summary>
    public static string Number(string name, string value, string words) => $"<div><dt>{name}</dt><dd>{value}<small>{words}</small></dd></div>\n";

    /// <summary>The causes that occur, in words.</summary>
    public static string Causes(SessionReview review)
    {
        if (review.Gaps.IsEmpty)
        {
            return "";
        }

        var text = new StringBuilder("<section>\n<h2>Causes</h2>\n<div class=\"scroll\" tabindex=\"0\" role=\"region\" aria-label=\"Table of causes\"><table>\n<thead><tr><th>cause</th><th class=\"r\">lines</th><th class=\"r\">gaps</th><th>what it means</th></tr></thead>\n<tbody>\n");
        foreach (IGrouping<GapCause, Gap> cause in review.Gaps.GroupBy(g => g.Cause).OrderByDescending(g => g.Sum(gap => gap.Lines)))
        {
            text.Append(CultureInfo.InvariantCulture, $"<tr><td class=\"c\">{Swatch(cause.Key)}</td><td class=\"r\">{cause.Sum(g => g.Lines)}</td><td class=\"r\">{cause.Count()}</td><td>{Svg.Safe(PageWords.Meaning(cause.Key))}</td></tr>\n");
        }

        return text.Append("</tbody>\n</table></div>\n</section>\n").ToString();
    }

    /// <summary>Every gap, by the numbers that the pictures show.</summary>
    public static string Gaps(SessionReview review)
    {
        if (review.Gaps.IsEmpty)
        {
            return "<section>\n<h2>Gaps</h2>\n<p>No line was lost.</p>\n</section>\n";
        }

        var text = new StringBuilder("<section class=\"long\">\n<h2>Gaps</h2>\n<div class=\"scroll\" tabindex=\"0\" role=\"region\" aria-label=\"Table of gaps\"><table>\n<thead><tr><th class=\"r\">gap</th><th>UTC</th><th class=\"r\">seconds</th><th class=\"r\">lines</th><th>cause</th><th class=\"r\">sure</th></tr></thead>\n<tbody>\n");
        for (int i = 0; i < review.Gaps.Length; i++)
        {
            Gap gap = review.Gaps[i];
            text.Append(
                CultureInfo.InvariantCulture,
                $"<tr><td class=\"r\">{i + 1}</td><td>{gap.FromUtc:HH:mm:ss.f}</td><td class=\"r\">{(gap.ToUtc - gap.FromUtc).TotalSeconds:0.0}</td><td class=\"r\">{gap.Lines}</td><td class=\"c\">{Swatch(gap.Cause)}</td><td class=\"r\">{100.0 * gap.Confidence:0} %</td></tr>\n");
        }

        return text.Append("</tbody>\n</table></div>\n</section>\n").ToString();
    }

    private static string Swatch(GapCause cause)
    {
        string name = CauseWords.NameOf(cause);
        return $"<span class=\"swatch c-{name}\"></span>{name}";
    }
}
