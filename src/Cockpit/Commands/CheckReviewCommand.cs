using System.CommandLine;
using System.Globalization;
using Cockpit.Session.Rehearsal;
using Cockpit.Session.Review;

namespace Cockpit.Commands;

/// <summary>cockpit check review: the causes that a review gives, against simulated passes whose truth is known.</summary>
public static class CheckReviewCommand
{
    private const int MostPasses = 5000;
    private const int UsualPasses = 130;
    private const int WantedGaps = 300;
    private const int WantedEach = 15;
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

            Rows are the truth, columns what was said; "unknown" counts as wrong. Gaps under a second, or without one clear cause in the truth, are
            not judged. Gaps off aim that nobody made - small errors of the hand and wrong beliefs of the guidance that add up - are told apart, not counted.
            The code is 1 when less than 90 % are right, lines lost are not within 1 %, or there are fewer than 300 gaps or 15 of a cause.

            Example:
              cockpit check review
              cockpit check review --first 5000 --passes 200
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
        if (!trial.Loose.IsEmpty)
        {
            output.WriteLine($"not made, not counted: {trial.Loose.Values.Sum().ToString(CultureInfo.InvariantCulture)} gaps off aim, said "
                + string.Join(", ", trial.Loose.OrderByDescending(l => l.Value).Select(l => string.Create(CultureInfo.InvariantCulture, $"{CauseWords.NameOf(l.Key)} {l.Value}"))));
        }

        GapCause[] few = [.. Enum.GetValues<GapCause>().Where(c => c != GapCause.Unknown && trial.Count(c) < WantedEach)];
        if (few.Length > 0 || trial.Gaps < WantedGaps)
        {
            output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"too few to judge (wanted {WantedGaps} gaps, {WantedEach} of each cause): {string.Join(", ", few.Select(CauseWords.NameOf))}; fly more with --passes"));
        }

        output.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"lines lost {trial.LinesLost:0}, said {trial.LinesSaid}: {100.0 * off:+0.00;-0.00;0.00} % (wanted within {100.0 * WantedLines:0}); worst pass {100.0 * trial.WorstPass:0.00} % of its lines"));
        return trial.Right >= WantedRight && Math.Abs(off) <= WantedLines && few.Length == 0 && trial.Gaps >= WantedGaps ? 0 : CommandRoot.Failed;
    }

    private static string Shortened(GapCause cause)
    {
        string name = CauseWords.NameOf(cause);
        return name.Length <= 8 ? name : name[..8];
    }
}
