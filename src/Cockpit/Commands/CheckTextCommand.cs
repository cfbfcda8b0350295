using System.CommandLine;
using System.Globalization;
using Cockpit.Checks;

namespace Cockpit.Commands;

/// <summary>cockpit check text: names of any Unicode through everything that shows one.</summary>
public static class CheckTextCommand
{
    private const int MostNames = 1_000_000;

    /// <summary>The command.</summary>
    public static Command Create()
    {
        var names = new Option<int>("--names") { HelpName = "N", Description = "How many names", DefaultValueFactory = _ => 1000 };
        var seed = new Option<int>("--seed") { HelpName = "N", Description = "Where the sequence of names starts", DefaultValueFactory = _ => 1 };
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
            parsed.GetRequiredValue(names), parsed.GetRequiredValue(seed), parsed.InvocationConfiguration.Output, parsed.InvocationConfiguration.Error, cancel));
        return command;
    }

    private static async Task<int> RunAsync(int count, int seed, TextWriter output, TextWriter complaints, CancellationToken cancel)
    {
        if (count is < 1 or > MostNames || seed < 0)
        {
            await complaints.WriteLineAsync(string.Create(CultureInfo.InvariantCulture, $"--names must be 1 to {MostNames} and --seed 0 or more"));
            return CommandRoot.WrongInput;
        }

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
