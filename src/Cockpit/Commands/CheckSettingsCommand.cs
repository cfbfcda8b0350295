using System.CommandLine;
using System.Globalization;
using Cockpit.Checks;

namespace Cockpit.Commands;

/// <summary>cockpit check settings: damaged settings files, as many as one likes.</summary>
public static class CheckSettingsCommand
{
    private const int Usual = 100_000;

    /// <summary>The command.</summary>
    public static Command Create()
    {
        Option<long?> mutations = CommonOptions.Whole("--mutations", "N", $"How many damaged files to read; {Usual} where missing", 1, int.MaxValue);
        Option<long?> seed = CommonOptions.Whole("--seed", "SEED", "Where the sequence of damage starts; 1 where missing", 0, int.MaxValue);
        Command command = new(
            "settings",
            """
            Damage files of settings at random and read them: each must give values and mistakes with a place, nothing else.

            Example:
              cockpit check settings --mutations 1000000
            """)
        {
            mutations, seed,
        };
        command.SetAction((parsed, cancel) => Task.FromResult(Run(
            (int)(parsed.GetValue(mutations) ?? Usual), (ulong)(parsed.GetValue(seed) ?? 1), parsed.InvocationConfiguration.Output, parsed.InvocationConfiguration.Error, cancel)));
        return command;
    }

    private static int Run(int count, ulong seed, TextWriter output, TextWriter complaints, CancellationToken cancel)
    {
        SettingsMutations run = new(seed);
        bool finished = false;
        try
        {
            while (run.Number < count && !cancel.IsCancellationRequested)
            {
                run.Next();
            }

            finished = true;
        }
        finally
        {
            // The exception goes on to the root; here stands what brings it back.
            if (!finished)
            {
                complaints.WriteLine(string.Create(CultureInfo.InvariantCulture, $"damaged file {run.Number} of seed {seed} broke the reader:\n{run.Text}"));
            }
        }

        output.WriteLine(string.Create(
            CultureInfo.InvariantCulture, $"{run.Number} damaged files: {run.Values} good values, {run.Mistakes} mistakes told, {run.Misplaced} of them outside the file"));
        return run.Number == count && run.Misplaced == 0 ? 0 : CommandRoot.Failed;
    }
}
