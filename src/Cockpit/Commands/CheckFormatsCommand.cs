using System.CommandLine;
using System.Globalization;
using Cockpit.Checks;

namespace Cockpit.Commands;

/// <summary>cockpit check formats: damaged element files of every form, as many as one likes.</summary>
public static class CheckFormatsCommand
{
    private const int Slice = 10_000;
    private const int Usual = 100_000;

    /// <summary>The command.</summary>
    public static Command Create()
    {
        Option<long?> mutations = CommonOptions.Whole("--mutations", "N", $"How many damaged files to read; {Usual} where missing", 1, int.MaxValue);
        Option<long?> seed = CommonOptions.Whole("--seed", "SEED", "Where the sequence of damage starts; 1 where missing", 0, int.MaxValue);
        var command = new Command(
            "formats",
            """
            Damage element files of every form (TLE; OMM as KVN, XML, JSON, table) at random and read them: each must give sets and mistakes, nothing else.

            Example:
              cockpit check formats --mutations 1000000
            """)
        {
            mutations,
            seed,
        };
        command.SetAction((parsed, cancel) => Task.FromResult(Run(
            (int)(parsed.GetValue(mutations) ?? Usual), (int)(parsed.GetValue(seed) ?? 1), parsed.InvocationConfiguration.Output, parsed.InvocationConfiguration.Error, cancel)));
        return command;
    }

    private static int Run(int count, int seed, TextWriter output, TextWriter complaints, CancellationToken cancel)
    {
        var run = new ElementMutations((ulong)seed);
        run.Run(Math.Min(count, Slice));
        long before = GC.GetTotalMemory(forceFullCollection: true);
        bool finished = false;
        try
        {
            while (run.Number < count && !cancel.IsCancellationRequested)
            {
                run.Run((int)Math.Min(Slice, count - run.Number));
            }

            finished = true;
        }
        finally
        {
            // The exception goes on to Main; here stands what brings it back.
            if (!finished)
            {
                complaints.WriteLine(string.Create(CultureInfo.InvariantCulture, $"damaged file {run.Number} of seed {seed} broke the reader:\n{run.Text}"));
            }
        }

        long growth = GC.GetTotalMemory(forceFullCollection: true) - before;
        output.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"{run.Number} damaged files: {run.Sets} good sets, {run.Mistakes} mistakes told, no other outcome; memory grew by {growth / 1024} KiB"));
        return run.Number == count ? 0 : CommandRoot.Failed;
    }
}
