using System.Collections.Immutable;
using System.CommandLine;
using System.Globalization;
using Cockpit.Checks;
using Cockpit.Session.Rehearsal;
using ParseError = Cockpit.Core.Formats.ParseError;

namespace Cockpit.Commands;

/// <summary>cockpit check guidance: picture lines lost with and without guidance, in simulation.</summary>
public static class CheckGuidanceCommand
{
    /// <summary>The command.</summary>
    public static Command Create()
    {
        var choices = new GuidanceChoices();
        Option<OutputFormat> format = CommonOptions.Format();
        var command = new Command(
            "guidance",
            """
            Fly simulated passes with a simulated hand: lines lost by perfect pointing, by the hold plan, without guidance, with it.

            The same seed is the same sky, wind and noise in every row. "avoid" is what is lost over perfect pointing, "+-" one
            standard error; "first", "low" and "rest" are its shares in the first minute, later below 10 degrees, and elsewhere;
            "in50" and "in95" say how often the dish was inside the stated regions; "ratio" is avoidable loss over that of the same hand
            without guidance, with its interval of 95 %. The figures compare; they promise nothing about a person. --over-time prints
            how far the belief was off instead. known-dish and exact-hand tell where the loss comes from.

            sensor: a sensor on the dish that was pointed at something of known direction before the pass, and no level at all; sensor-and-signal:
            sensor and level, how far it is off is not known before; inclinometer: level and elevation; raw-sensor: its angles believed as they are.

            Examples:
              cockpit check guidance
              cockpit check guidance --world today --seeds 50 --first 9000 --format csv
              cockpit check guidance --hand novice --steering perfect,guided --stress
              cockpit check guidance --world today --steering guided,sensor-and-signal --sensor-cases
              cockpit check guidance --learn
            """);
        choices.AddTo(command);
        command.Options.Add(format);
        command.SetAction((parsed, cancel) => Task.FromResult(parsed.GetValue(choices.Learn)
            ? LearnRows.Run(parsed, choices, parsed.GetValue(format), cancel)
            : Run(parsed, choices, parsed.GetValue(format), cancel)));
        return command;
    }

    private static int Run(ParseResult parsed, GuidanceChoices choices, OutputFormat format, CancellationToken cancel)
    {
        TextWriter complaints = parsed.InvocationConfiguration.Error;
        if (!choices.Read(parsed).Try(out IReadOnlyList<ImmutableArray<Trial>>? asked, out ParseError? error))
        {
            complaints.WriteLine(error);
            return CommandRoot.WrongInput;
        }

        List<(string Label, ImmutableArray<Trial> Trials)> rows = [.. asked.Select(trials => ("", trials))];
        if (parsed.GetValue(choices.Stress))
        {
            foreach ((string label, Func<Trial, Trial> change) in StressRows.All)
            {
                rows.AddRange(asked.Where(t => t[0].Steering is Steering.Perfect or Steering.Guided).Select(t => (label, t.Select(change).ToImmutableArray())));
            }
        }

        if (parsed.GetValue(choices.SensorCases))
        {
            if (asked.All(t => t[0].Steering is not Steering.SensorAndSignal))
            {
                complaints.WriteLine(new ParseError("--sensor-cases", 0, 0, "nobody is guided by sensor and signal; add sensor-and-signal to --steering"));
                return CommandRoot.WrongInput;
            }

            foreach ((string label, SensorWorld sensor) in SensorCases.All)
            {
                rows.AddRange(asked.Where(t => t[0].Steering is Steering.SensorAndSignal).Select(t => (label, t.Select(trial => trial with { Sensor = sensor }).ToImmutableArray())));
            }
        }

        ImmutableArray<double> passes = [.. asked[0].Select(t => t.HighestDegrees).Distinct()];
        bool overTime = parsed.GetValue(choices.OverTime);
        OutputRows output = new(parsed.InvocationConfiguration.Output, format, overTime ? ErrorColumns : ColumnsOf(passes));
        var progress = ProgressBar.OnTerminal(complaints, TimeProvider.System, rows.Sum(r => r.Trials.Length), "passes");
        List<GuidanceRow> made = [];
        ImmutableArray<PassScore>? perfect = null;
        ImmutableDictionary<string, ImmutableArray<PassScore>> unguided = ImmutableDictionary<string, ImmutableArray<PassScore>>.Empty;
        int before = 0;
        output.Begin();
        foreach ((string label, ImmutableArray<Trial> trials) in rows)
        {
            int done = before;
            ImmutableArray<PassScore> scores = GuidanceFlights.Fly(trials, count => progress.Show(done + count), cancel);
            before += trials.Length;
            perfect = trials[0].Steering == Steering.Perfect ? scores : perfect;
            GuidanceRow row = GuidanceTrials.Row(label, trials, scores, perfect);
            unguided = trials[0].Steering == Steering.Unguided ? unguided.Add(row.Skill, scores) : unguided;
            if (trials[0].Steering == Steering.Guided && label.Length == 0 && perfect is { } best && unguided.TryGetValue(row.Skill, out ImmutableArray<PassScore> alone))
            {
                row = row with { OfUnguided = LossRatio.Of(best, alone, scores) };
            }

            made.Add(row);
            Add(output, row, scores, overTime);
        }

        progress.Clear();
        output.End();
        return Verdict(made, complaints);
    }

    private static ImmutableArray<OutputColumn> ErrorColumns { get; } =
    [
        new("steering", "steering", -17),
        new("hand", "hand", -9),
        new("case", "case", -14),
        new("since_aos_s", "after s", 7),
        new("median_deg", "median °", 8),
        new("within_90_percent_deg", "90 % °", 6),
        new("within_95_percent_deg", "95 % °", 6),
        new("passes", "passes", 6),
    ];

    private static void Add(OutputRows output, GuidanceRow row, ImmutableArray<PassScore> scores, bool overTime)
    {
        if (!overTime)
        {
            output.Add([.. CellsOf(row)]);
            return;
        }

        for (int i = 0; i < PassScore.ErrorsAt.Length; i++)
        {
            double[] errors = [.. scores.Where(s => s.Errors.Length > i).Select(s => s.Errors[i]).Order()];
            if (errors.Length > 0)
            {
                output.Add(
                [
                    Cell.Of(GuidanceChoices.NameOf(row.Steering)),
                    Cell.Of(row.Skill.Length == 0 ? null : row.Skill),
                    Cell.Of(row.Label.Length == 0 ? null : row.Label),
                    Cell.Of(PassScore.ErrorsAt[i], 0, 0),
                    Cell.Of(errors[errors.Length / 2], 2, 1),
                    Cell.Of(errors[(int)Math.Ceiling(0.9 * errors.Length) - 1], 2, 1),
                    Cell.Of(errors[(int)Math.Ceiling(0.95 * errors.Length) - 1], 2, 1),
                    Cell.Of(errors.Length, 0, 0),
                ]);
            }
        }
    }

    /// <summary>Guidance that loses as much as none is a failure.</summary>
    private static int Verdict(List<GuidanceRow> made, TextWriter complaints)
    {
        bool helps = made.Where(r => r.Steering == Steering.Guided && r.Label.Length == 0).All(guided => made
            .Where(r => r.Steering == Steering.Unguided && string.Equals(r.Skill, guided.Skill, StringComparison.Ordinal))
            .All(unguided => guided.LostPercent < unguided.LostPercent));
        if (helps)
        {
            return 0;
        }

        complaints.WriteLine("guidance loses as much as none; see the rows \"guided\" and \"unguided\" of the same hand");
        return CommandRoot.Failed;
    }

    private static ImmutableArray<OutputColumn> ColumnsOf(ImmutableArray<double> passes) =>
    [
        new("steering", "steering", -17),
        new("hand", "hand", -9),
        new("case", "case", -14),
        .. passes.Select(e => new OutputColumn(string.Create(CultureInfo.InvariantCulture, $"lost_percent_{e:0}deg"), string.Create(CultureInfo.InvariantCulture, $"{e:0}°"), 5)),
        new("lost_percent", "lost %", 6),
        new("standard_error", "+-", 4),
        new("avoidable_percent", "avoid", 5),
        new("percentile_90", "90th", 5),
        new("worst_percent", "worst", 5),
        new("first_minute_percent", "first", 5),
        new("low_percent", "low", 5),
        new("rest_percent", "rest", 5),
        new("rms_deg", "rms °", 5),
        new("moves", "moves", 5),
        new("marks", null, 5),
        new("in_50_percent", "in50", 4),
        new("in_95_percent", "in95", 4),
        new("of_unguided", "ratio", 5),
        new("of_unguided_low", "from", 4),
        new("of_unguided_high", "to", 4),
    ];

    private static IEnumerable<Cell> CellsOf(GuidanceRow row) =>
    [
        Cell.Of(GuidanceChoices.NameOf(row.Steering)),
        Cell.Of(row.Skill.Length == 0 ? null : row.Skill),
        Cell.Of(row.Label.Length == 0 ? null : row.Label),
        .. row.LostPercentByElevation.Select(p => Cell.Of(p, 3, 1)),
        Cell.Of(row.LostPercent, 3, 1),
        Cell.Of(row.StandardError, 3, 1),
        Cell.Of(row.AvoidablePercent, 3, 1),
        Cell.Of(row.Percentile90, 3, 1),
        Cell.Of(row.WorstPercent, 3, 1),
        Cell.Of(row.FirstPercent, 3, 1),
        Cell.Of(row.LowPercent, 3, 1),
        Cell.Of(row.RestPercent, 3, 1),
        Cell.Of(row.RmsDegrees, 3, 1),
        Cell.Of(row.Moves, 2, 0),
        Cell.Of(row.Marks, 2, 1),
        Cell.Of(row.InHalfPercent, 1, 0),
        Cell.Of(row.InMostPercent, 1, 0),
        Cell.Of(row.OfUnguided?.Ratio, 3, 2),
        Cell.Of(row.OfUnguided?.Low, 3, 2),
        Cell.Of(row.OfUnguided?.High, 3, 2),
    ];
}
