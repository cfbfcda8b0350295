using System.CommandLine;
using System.Globalization;
using Cockpit.Session.Rehearsal;
using Cockpit.Session.Review;

namespace Cockpit.Commands;

/// <summary>cockpit check review: the causes that a review gives, against simulated passes whose truth is known.</summary>
public static class CheckReviewCommand
{
    private const int MostPasses = 5000;
    private const int UsualPasses = 100;
    private const double WantedRight = 0.9;
    private const double WantedLines = 0.01;

    /// <summary>The command.</summary>
    public static Command Create()
    {
        Option<long?> passes = CommonOptions.Whole("--passes", "N", $"Passes to fly; {UsualPasses} where missing", 1, MostPasses);
        Option<long?> first = CommonOptions.Whole("--first", "SEED", "The first seed; 0 where missing", 0, int.MaxValue);
        var command = new Command(
            "review",
            """
            Fly simulated passes in which things go wrong on purpose, review them, and count how often the review names the right cause.

            Rows are the truth, columns what was said; "unknown" counts as wrong. Gaps under a second, or without one clear cause in the truth, are not judged.

            Example:
              cockpit check review --passes 100
            """)
        {
            passes, first,
        };
        command.SetAction(parsed => Print(
            ReviewTrial.Of((ulong)(parsed.GetValue(first) ?? 0), (int)(parsed.GetValue(passes) ?? UsualPasses)), parsed.InvocationConfiguration.Output));
        return command;
    }

    private static int Print(ReviewTrial trial, TextWriter output)
    {
        GapCause[] causes = [.. Enum.GetValues<GapCause>().Where(c => trial.Said.Keys.Any(k => k.Truth == c || k.Said == c)).OrderBy(c => c == GapCause.Unknown).ThenBy(c => c)];
        output.WriteLine($"{"truth",-17}" + string.Concat(causes.Select(c => $"{Shortened(c),9}")) + $"{"right",8}");
        foreach (GapCause truth in causes.Where(c => trial.Count(c) > 0))
        {
            double right = (double)trial.Said.GetValueOrDefault((truth, truth)) / trial.Count(truth);
            output.WriteLine($"{CauseWords.NameOf(truth),-17}"
                + string.Concat(causes.Select(c => string.Create(CultureInfo.InvariantCulture, $"{trial.Said.GetValueOrDefault((truth, c)),9}")))
                + string.Create(CultureInfo.InvariantCulture, $"{100.0 * right,7:0} %"));
        }

        double off = trial.LinesLost > 0.0 ? (trial.LinesSaid - trial.LinesLost) / trial.LinesLost : 0.0;
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{trial.Passes} passes, {trial.Gaps} gaps, {100.0 * trial.Right:0.0} % right (wanted {100.0 * WantedRight:0})"));
        output.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"lines lost {trial.LinesLost:0}, said {trial.LinesSaid}: {100.0 * off:+0.00;-0.00;0.00} % (wanted within {100.0 * WantedLines:0}); worst pass {100.0 * trial.WorstPass:0.00} % of its lines"));
        return trial.Right >= WantedRight && Math.Abs(off) <= WantedLines ? 0 : CommandRoot.Failed;
    }

    private static string Shortened(GapCause cause)
    {
        string name = CauseWords.NameOf(cause);
        return name.Length <= 8 ? name : name[..8];
    }
}
