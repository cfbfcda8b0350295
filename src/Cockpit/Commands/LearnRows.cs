using System.Collections.Immutable;
using System.CommandLine;
using Cockpit.Checks;
using Cockpit.Session.Rehearsal;
using ParseError = Cockpit.Core.Formats.ParseError;

namespace Cockpit.Commands;

/// <summary>cockpit check guidance --learn: what passes tell about a hand, and what that brings.</summary>
internal static class LearnRows
{
    /// <summary>A reaction that is learnt is good within this, seconds.</summary>
    internal const double WantedReaction = 0.15;

    /// <summary>An amount that is learnt is good within this share.</summary>
    internal const double WantedAmount = 0.05;

    private static readonly OutputColumn[] Columns =
    [
        new("hand", "hand", -10), new("reaction_s", "is s", 5), new("learnt_reaction_s", "learnt", 6), new("reaction_sd_s", "+-", 5), new("keys", "keys", 4),
        new("amount", "amount", 6), new("learnt_amount", "learnt", 6), new("amount_sd", "+-", 5), new("moves", "moves", 5),
        new("standard_lost_percent", "std %", 6), new("learnt_lost_percent", "learnt %", 8),
        new("gain_percent", "gain", 6), new("gain_low_95", "from", 6), new("gain_high_95", "to", 6), new("passes", "passes", 6),
    ];

    /// <summary>Flies and prints.</summary>
    public static int Run(ParseResult parsed, GuidanceChoices choices, OutputFormat format, CancellationToken cancel)
    {
        TextWriter complaints = parsed.InvocationConfiguration.Error;
        if (!choices.ReadLearn(parsed).Try(out IReadOnlyList<ImmutableArray<Trial>>? asked, out ParseError? error))
        {
            complaints.WriteLine(error);
            return CommandRoot.WrongInput;
        }

        OutputRows output = new(parsed.InvocationConfiguration.Output, format, Columns);
        var progress = ProgressBar.OnTerminal(complaints, TimeProvider.System, asked.Sum(LearnFlights.CountOf), "passes");
        List<LearnTrial> made = [];
        int before = 0;
        output.Begin();
        foreach (ImmutableArray<Trial> trials in asked)
        {
            int done = before;
            LearnTrial trial = LearnFlights.Fly(trials, count => progress.Show(done + count), cancel);
            before += LearnFlights.CountOf(trials);
            made.Add(trial);
            output.Add([.. CellsOf(trial, trials.Length)]);
        }

        progress.Clear();
        output.End();
        return Verdict(made, complaints);
    }

    private static IEnumerable<Cell> CellsOf(LearnTrial trial, int passes) =>
    [
        Cell.Of(trial.Skill.Name),
        Cell.Of(trial.Skill.CueReactionSeconds, 3, 2), Cell.Of(trial.Learnt.ReactionSeconds?.Value, 3, 2), Cell.Of(trial.Learnt.ReactionSeconds?.Sd, 3, 2), Cell.Of(trial.Learnt.ReactionSeconds?.Count),
        Cell.Of(trial.Skill.Amount, 3, 2), Cell.Of(trial.Learnt.Amount?.Value, 3, 2), Cell.Of(trial.Learnt.Amount?.Sd, 3, 2), Cell.Of(trial.Learnt.Amount?.Count),
        Cell.Of(trial.StandardPercent, 3, 1), Cell.Of(trial.LearntPercent, 3, 1),
        Cell.Of(trial.Gain.Mean, 3, 2), Cell.Of(trial.Gain.Low, 3, 2), Cell.Of(trial.Gain.High, 3, 2), Cell.Of(passes),
    ];

    // What is learnt must be near; what it brings is told with its interval and may be nothing.
    private static int Verdict(List<LearnTrial> made, TextWriter complaints)
    {
        foreach (LearnTrial trial in made)
        {
            if (!(Math.Abs(trial.ReactionError ?? double.NaN) <= WantedReaction))
            {
                complaints.WriteLine(FormattableString.Invariant($"{trial.Skill.Name}: the reaction is not learnt within {WantedReaction:0.00} s"));
            }

            if (!(Math.Abs(trial.AmountError ?? double.NaN) <= WantedAmount))
            {
                complaints.WriteLine(FormattableString.Invariant($"{trial.Skill.Name}: the amount is not learnt within {100.0 * WantedAmount:0} %"));
            }
        }

        return made.All(t => Math.Abs(t.ReactionError ?? double.NaN) <= WantedReaction && Math.Abs(t.AmountError ?? double.NaN) <= WantedAmount) ? 0 : CommandRoot.Failed;
    }
}
