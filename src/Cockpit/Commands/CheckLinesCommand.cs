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
        var mutations = new Option<int>("--mutations") { HelpName = "N", Description = "How many damaged lines to read", DefaultValueFactory = _ => Usual };
        var seed = new Option<int>("--seed") { HelpName = "N", Description = "Where the sequence of damage starts", DefaultValueFactory = _ => 1 };
        var command = new Command(
            "lines",
            """
            Damage lines of receivers at random and read them: each must give a measurement in range, nothing, or a mistake with its column.

            Example:
              cockpit check lines --mutations 1000000
            """)
        {
            mutations,
            seed,
        };
        command.SetAction((parsed, cancel) => Task.FromResult(Run(
            parsed.GetRequiredValue(mutations), parsed.GetRequiredValue(seed), parsed.InvocationConfiguration.Output, parsed.InvocationConfiguration.Error, cancel)));
        return command;
    }

    private static int Run(int count, int seed, TextWriter output, TextWriter complaints, CancellationToken cancel)
    {
        if (count < 1 || seed < 0)
        {
            complaints.WriteLine("--mutations must be 1 or more and --seed 0 or more");
            return CommandRoot.WrongInput;
        }

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
