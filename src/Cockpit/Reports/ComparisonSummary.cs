using System.Globalization;
using Cockpit.Session.Review;

namespace Cockpit.Reports;

/// <summary>Two sessions side by side in lines for people.</summary>
public static class ComparisonSummary
{
    private const int Column = 30;

    /// <summary>The rows that a table of the two has.</summary>
    /// <param name="both">The two.</param>
    public static IEnumerable<(string Name, string A, string B)> Rows(Comparison both)
    {
        ArgumentNullException.ThrowIfNull(both);
        (SessionReview a, SessionReview b) = (both.A.Review, both.B.Review);
        yield return ("session", both.A.Name, both.B.Name);
        yield return ("satellite", a.SatelliteName, b.SatelliteName);
        yield return ("from, UTC", Text($"{a.FromUtc:yyyy-MM-dd HH:mm:ss}"), Text($"{b.FromUtc:yyyy-MM-dd HH:mm:ss}"));
        yield return ("to, UTC", Text($"{a.ToUtc:yyyy-MM-dd HH:mm:ss}"), Text($"{b.ToUtc:yyyy-MM-dd HH:mm:ss}"));
        yield return ("top", Text($"{a.HighestElevation.Degrees:0}°"), Text($"{b.HighestElevation.Degrees:0}°"));
        yield return ("sent", Text($"{a.Lines.Sent}"), Text($"{b.Lines.Sent}"));
        yield return ("received", Received(a.Lines), Received(b.Lines));
        yield return ("lost", Text($"{a.Lines.Lost} in {a.Gaps.Length}"), Text($"{b.Lines.Lost} in {b.Gaps.Length}"));
        foreach (GapCause cause in a.Gaps.Concat(b.Gaps).GroupBy(g => g.Cause).OrderByDescending(g => g.Sum(gap => gap.Lines)).Select(g => g.Key))
        {
            yield return ("by " + CauseWords.NameOf(cause), By(a, cause), By(b, cause));
        }

        yield return ("reaction", Of(a.Hand.ReactionSeconds, "s"), Of(b.Hand.ReactionSeconds, "s"));
        yield return ("amount", Of(a.Hand.Amount, ""), Of(b.Hand.Amount, ""));
        yield return ("nudges", Text($"{a.Hand.Nudges} called, {a.Hand.Planned} planned"), Text($"{b.Hand.Nudges} called, {b.Hand.Planned} planned"));
    }

    /// <summary>The table, what the lines of both say, and what is not the same.</summary>
    /// <param name="both">The two.</param>
    public static IEnumerable<string> Lines(Comparison both)
    {
        ArgumentNullException.ThrowIfNull(both);
        yield return $"{"",-18} {"A",-Column} B";
        foreach ((string name, string a, string b) in Rows(both))
        {
            yield return $"{name,-18} {a,-Column} {b}";
        }

        foreach (string sentence in Sentences(both))
        {
            yield return sentence;
        }
    }

    /// <summary>What the lines of both say, and what is not the same, a sentence each.</summary>
    /// <param name="both">The two.</param>
    public static IEnumerable<string> Sentences(Comparison both)
    {
        ArgumentNullException.ThrowIfNull(both);
        if (both.Lines is { } lines)
        {
            yield return Text($"of {lines.Sent} lines that both watched: {lines.LostByA} lost by A alone, {lines.LostByB} by B alone, {lines.LostByBoth} by both");
        }

        foreach (string difference in both.Differences)
        {
            yield return difference;
        }
    }

    private static string Received(LineCount lines) => Text($"{lines.Received} ({(lines.Sent > 0 ? 100.0 * lines.Received / lines.Sent : 0.0):0.0} %)");

    private static string By(SessionReview review, GapCause cause) => review.Gaps.Where(g => g.Cause == cause).ToArray() is { Length: > 0 } gaps ? Text($"{gaps.Sum(g => g.Lines)} in {gaps.Length}") : "-";

    private static string Of(Spread? spread, string unit) => spread is { } s ? Text($"{s.Value:0.00} ± {s.Sd:0.00} {unit}").TrimEnd() : "-";

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
