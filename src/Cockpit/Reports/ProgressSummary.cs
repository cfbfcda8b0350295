using System.Globalization;
using Cockpit.Session.Review;

namespace Cockpit.Reports;

/// <summary>The comparison of passes in lines for people.</summary>
public static class ProgressSummary
{
    private const string Blocks = "▁▂▃▄▅▆▇█";
    private const int Widest = 40;

    /// <summary>The lines: each figure with its course and trend, then the shares by height and by date.</summary>
    /// <param name="progress">The comparison.</param>
    /// <param name="sessions">Sessions there are, with those that do not count.</param>
    public static IEnumerable<string> Lines(Progress progress, int sessions)
    {
        ArgumentNullException.ThrowIfNull(progress);
        yield return string.Create(CultureInfo.InvariantCulture, $"{progress.Passes.Length} of {sessions} sessions watched at least 100 s of their pass");
        foreach (ProgressFigure figure in progress.Figures)
        {
            yield return Line(figure);
        }

        foreach (ProgressGroup group in progress.ByTop)
        {
            yield return Line(group);
        }

        // A single date says nothing that the first line does not.
        foreach (ProgressGroup group in progress.ByDate.Length > 1 ? progress.ByDate : [])
        {
            yield return Line(group);
        }
    }

    /// <summary>Small bars, lowest to highest; long courses are drawn by the means of neighbours.</summary>
    /// <param name="values">At least one.</param>
    public static string Sparkline(IReadOnlyCollection<double> values)
    {
        ArgumentNullException.ThrowIfNull(values);
        int together = (values.Count + Widest - 1) / Widest;
        double[] bars = [.. values.Chunk(Math.Max(1, together)).Select(c => c.Average())];
        double low = bars.Min();
        double span = bars.Max() - low;
        return string.Concat(bars.Select(v => Blocks[span > 0.0 ? (int)Math.Min(7, 8 * (v - low) / span) : 3]));
    }

    /// <summary>What the trend says, interval included.</summary>
    /// <param name="figure">The figure.</param>
    public static string Change(ProgressFigure figure)
    {
        ArgumentNullException.ThrowIfNull(figure);
        if (figure.Trend is not { } trend)
        {
            return "too few for a trend";
        }

        string word = figure.Better switch
        {
            true => "gets better",
            false => "gets worse",
            null when trend.IsCarried => trend.Slope > 0.0 ? "rises" : "falls",
            null => "no change that the numbers carry",
        };
        return $"{word}: {Signed(trend.Slope, figure)} a session (95 %: {Signed(trend.Low, figure)} to {Signed(trend.High, figure)})";
    }

    private static string Line(ProgressFigure figure)
    {
        string name = figure.Unit.Length > 0 ? $"{figure.Name}, {figure.Unit}" : figure.Name;
        string spread = figure.Points.Length > 1 ? $" ± {Number(figure.Deviation, figure)}" : "";
        return $"{name,-12} {Sparkline([.. figure.Points.Select(p => p.Value)])}  {Number(figure.Mean, figure)}{spread} in {figure.Points.Length}; {Change(figure)}";
    }

    private static string Line(ProgressGroup group)
    {
        string spread = group.Deviation is { } deviation ? string.Create(CultureInfo.InvariantCulture, $" ± {deviation,4:0.0}") : "       ";
        string reaction = group.ReactionSeconds is { } r ? string.Create(CultureInfo.InvariantCulture, $", reaction {r:0.00} s") : "";
        string amount = group.Amount is { } a ? string.Create(CultureInfo.InvariantCulture, $", amount {a:0.00}") : "";
        return string.Create(CultureInfo.InvariantCulture, $"{group.Name,-12} {group.Mean,5:0.0} % of the lines{spread} in {group.Passes}{reaction}{amount}");
    }

    private static string Number(double value, ProgressFigure figure) =>
        value.ToString("F" + figure.Decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);

    // A change of a session is small against the figure: one more decimal.
    private static string Signed(double value, ProgressFigure figure)
    {
        string digits = new('0', figure.Decimals + 1);
        return value.ToString($"+0.{digits};-0.{digits};0.{digits}", CultureInfo.InvariantCulture);
    }
}
