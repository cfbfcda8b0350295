using System.CommandLine;
using System.Globalization;
using Cockpit.Checks;

namespace Cockpit.Commands;

/// <summary>cockpit check text: names of any Unicode through everything that shows one.</summary>
public static class CheckTextCommand
{
    private const int Usual = 1000;
    private const int MostNames = 1_000_000;

    /// <summary>The command.</summary>
    public static Command Create()
    {
        Option<long?> names = CommonOptions.Whole("--names", "N", $"How many names; {Usual} where missing", 1, MostNames);
        Option<long?> seed = CommonOptions.Whole("--seed", "SEED", "Where the sequence of names starts; 1 where missing", 0, int.MaxValue);
        var command = new Command(
            "text",
            """
            Send random names (every plane of Unicode, joined emoji, combining, bidirectional, control) through passes, look, the calendar,
            the lines and the screen of live and replay, a session file and its check. Nothing may fail, and no character that a terminal obeys may come out.

            Example:
              cockpit check text --names 1000
            """)
        {
            names,
            seed,
        };
        command.SetAction((parsed, cancel) => RunAsync(
            (int)(parsed.GetValue(names) ?? Usual), parsed.GetValue(seed) ?? 1, parsed.InvocationConfiguration.Output, parsed.InvocationConfiguration.Error, cancel));
        return command;
    }

    private static async Task<int> RunAsync(int count, long seed, TextWriter output, TextWriter complaints, CancellationToken cancel)
    {
        using NameTrial trial = new();
        RandomNames source = new((ulong)seed);
        await trial.RunAsync([.. Enumerable.Range(0, count).Select(_ => source.Next())], cancel);
        foreach (string failure in trial.Failures.Take(20))
        {
            await complaints.WriteLineAsync(failure);
        }

        foreach ((string which, int times) in trial.Raw)
        {
            await complaints.WriteLineAsync(string.Create(CultureInfo.InvariantCulture, $"{which}, {times} times"));
        }

        foreach ((string way, int shown) in trial.Shown)
        {
            await output.WriteLineAsync(string.Create(CultureInfo.InvariantCulture, $"{way,-14}{shown,8} texts"));
        }

        int raw = trial.Raw.Values.Sum();
        await output.WriteLineAsync(string.Create(CultureInfo.InvariantCulture, $"{count} names: {trial.Failures.Count} failures, {raw} raw control characters"));
        return trial.Failures.Count == 0 && raw == 0 ? 0 : CommandRoot.Failed;
    }
}
