using System.Collections.Immutable;
using System.CommandLine;
using Cockpit.Session.Rehearsal;

namespace Cockpit.Commands;

/// <summary>cockpit check guidance: picture lines lost with and without guidance, in simulation.</summary>
public static class CheckGuidanceCommand
{
    private const int MostSeeds = 200;
    private const int UsualSeeds = 5;

    private static readonly ImmutableArray<OutputColumn> Columns =
    [
        new("steering", "steering", -9),
        new("hand", "hand", -9),
        .. ClosedLoop.Elevations.Select(e => new OutputColumn(FormattableString.Invariant($"lost_percent_{e:0}deg"), FormattableString.Invariant($"{e:0}°"), 5)),
        new("lost_percent", "lost %", 6),
        new("standard_error", "+-", 4),
        new("percentile_90", "90th", 5),
        new("rms_deg", "rms °", 5),
        new("moves", "moves", 5),
        new("marks", "marks", 5),
    ];

    /// <summary>The command.</summary>
    public static Command Create()
    {
        Option<long?> seeds = CommonOptions.Whole("--seeds", "N", $"Seeds for each pass; {UsualSeeds} where missing", 1, MostSeeds);
        Option<long?> first = CommonOptions.Whole("--first", "SEED", "The first seed; 0 where missing", 0, int.MaxValue);
        Option<OutputFormat> format = CommonOptions.Format();
        var command = new Command(
            "guidance",
            """
            Fly simulated passes with a simulated hand: lines lost by perfect pointing, by the hold plan, without guidance, with it.

            The same seed is the same sky, wind and noise in every row. The figures compare; they promise nothing about a person.

            Examples:
              cockpit check guidance
              cockpit check guidance --seeds 50 --format csv
            """)
        {
            seeds, first, format,
        };
        command.SetAction(parsed => Run(
            (int)(parsed.GetValue(first) ?? 0), (int)(parsed.GetValue(seeds) ?? UsualSeeds), parsed.GetValue(format), parsed.InvocationConfiguration.Output, parsed.InvocationConfiguration.Error));
        return command;
    }

    private static int Run(int first, int seeds, OutputFormat format, TextWriter output, TextWriter complaints)
    {
        OutputRows rows = new(output, format, Columns);
        rows.Begin();
        List<GuidanceRow> made = [];
        foreach ((Steering steering, HandSkill skill) in GuidanceTable.Cases)
        {
            GuidanceRow row = GuidanceTable.Row(steering, skill, (ulong)first, seeds);
            rows.Add([.. CellsOf(row)]);
            made.Add(row);
        }

        rows.End();
        bool helps = made.Where(r => r.Steering == Steering.Guided)
            .All(guided => guided.LostPercent < made.Single(r => r.Steering == Steering.Unguided && string.Equals(r.Skill, guided.Skill, StringComparison.Ordinal)).LostPercent);
        if (helps)
        {
            return 0;
        }

        complaints.WriteLine("guidance loses as much as none; see the rows \"guided\" and \"unguided\" of the same hand");
        return CommandRoot.Failed;
    }

    private static IEnumerable<Cell> CellsOf(GuidanceRow row) =>
    [
        Cell.Of(row.Steering switch
        {
            Steering.Perfect => "perfect",
            Steering.HoldPlan => "hold plan",
            Steering.Unguided => "unguided",
            _ => "guided",
        }),
        Cell.Of(row.Skill.Length == 0 ? null : row.Skill),
        .. row.LostPercentByElevation.Select(p => Cell.Of(p, 3, 1)),
        Cell.Of(row.LostPercent, 3, 1),
        Cell.Of(row.StandardError, 3, 1),
        Cell.Of(row.Percentile90, 3, 1),
        Cell.Of(row.RmsDegrees, 3, 1),
        Cell.Of(row.Moves, 2, 0),
        Cell.Of(row.Marks, 2, 1),
    ];
}
