using System.CommandLine;
using System.Globalization;
using Cockpit.Checks;

namespace Cockpit.Commands;

/// <summary>cockpit check lines: damaged lines of receivers, as many as one likes.</summary>
public static class CheckLinesCommand
{
    private const int Usual = 1_000_000;

    /// <summary>The command.</summary>
    public static Command Create()
    {
        Option<long?> mutations = CommonOptions.Whole("--mutations", "N", $"How many damaged lines to read; {Usual} where missing", 1, int.MaxValue);
        Option<long?> seed = CommonOptions.Whole("--seed", "SEED", "Where the sequence of damage starts; 1 where missing", 0, int.MaxValue);
        var command = new Command(
            "lines",
            """
            Damage lines of receivers at random and read them: each must give a measurement in range, nothing, or a mistake with its column,
            by itself, as a line of one long feed, and as a row of columns.

            Example:
              cockpit check lines --mutations 1000000
            """)
        {
            mutations,
            seed,
        };
        command.SetAction((parsed, cancel) => Task.FromResult(Run(
            parsed.GetValue(mutations) ?? Usual, parsed.GetValue(seed) ?? 1, parsed.InvocationConfiguration.Output, parsed.InvocationConfiguration.Error, cancel)));
        return command;
    }

    private static int Run(long count, long seed, TextWriter output, TextWriter complaints, CancellationToken cancel)
    {
        LineMutations run = new((ulong)seed);
        bool finished = false;
        string? wrong = null;
        try
        {
            while (run.Number < count && wrong is null && !cancel.IsCancellationRequested)
            {
                wrong = run.Next();
            }

            finished = wrong is null;
        }
        finally
        {
            // An exception goes on to Main; here stands what brings it back.
            if (!finished)
            {
                complaints.WriteLine(string.Create(CultureInfo.InvariantCulture, $"damaged line {run.Number} of seed {seed}: {wrong ?? "it broke the reader"}: {Convert.ToHexString(run.Line)}"));
            }
        }

        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{run.Number} damaged lines: {run.Measurements} measurements, {run.Mistakes} mistakes told, no other outcome"));
        return run.Number == count && finished ? 0 : CommandRoot.Failed;
    }
}
