using System.Text;
using Cockpit.Planning;

namespace Cockpit.Reports;

/// <summary>One pass on one sheet to take along: printed on A4 or letter it is one page, and a phone shows it. Stands alone: no script, no font, no picture from elsewhere.</summary>
internal static class SetUpSheet
{
    /// <summary>The page.</summary>
    /// <param name="facts">What it tells.</param>
    public static string Of(SheetFacts facts)
    {
        EveningPass pass = facts.Pass;
        string name = Svg.Safe(pass.Satellite);
        var page = new StringBuilder(PageParts.Begin($"{name}, {facts.Clock.Date(pass.Rise.Utc)}", SheetStyle.Css));
        page.Append("<h1>").Append(name).Append(", ").Append(facts.Clock.Date(pass.Rise.Utc)).Append("</h1>\n").Append(SheetParts.When(facts));
        page.Append("<div class=\"two\">\n").Append(SheetParts.Moments(facts)).Append("<div>\n").Append(SheetParts.Outlook(facts)).Append(SheetNorth.Of(facts)).Append("</div>\n</div>\n");
        page.Append("<div class=\"two plan\">\n").Append(SheetParts.Sky(facts)).Append(SheetHolds.Of(facts)).Append("</div>\n");
        page.Append("<div class=\"two last\">\n").Append(SheetLists.Checks(facts)).Append(SheetLists.Cautions(facts)).Append("</div>\n");
        return page.Append(PageParts.End(End(facts))).ToString();
    }

    private static string End(SheetFacts facts) =>
        $"The {Svg.Safe(facts.Pass.Verdict.ElementAge.Words())}, usually good to {Text($"{facts.Pass.Verdict.ElementAge.HighSeconds:0.0}")} s. Azimuths are true unless a compass is named; elevations are above the horizontal. "
        + "What is written here guides a practised hand; the rules of the place and of your licence go before it.";

    private static string Text(FormattableString text) => FormattableString.Invariant(text);
}
