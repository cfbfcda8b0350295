using System.CommandLine;
using Cockpit.Checks;
using Cockpit.Core.Formats;
using ParseError = Cockpit.Core.Formats.ParseError;

namespace Cockpit.Commands;

/// <summary>cockpit check session: reads a journal, folds it, says what it holds and the fingerprint of its snapshots.</summary>
public static class CheckSessionCommand
{
    /// <summary>The command.</summary>
    public static Command Create()
    {
        Argument<string> path = new("session") { HelpName = "SESSION", Description = "Folder of the session" };
        Command command = new(
            "session",
            """
            Read a session whole: what it holds, what is damaged, the fingerprint of its snapshots.
            The exit code is 0 only for a session that is not damaged: 1 when something is damaged, missing or wild, 2 when it is no session.
            """) { path };
        command.SetAction((parsed, _) => RunAsync(parsed.GetRequiredValue(path), parsed.InvocationConfiguration.Output, parsed.InvocationConfiguration.Error));
        return command;
    }

    private static async Task<int> RunAsync(string path, TextWriter output, TextWriter complaints)
    {
        if (!SessionCheck.Of(path).Try(out SessionCheck? check, out ParseError? error))
        {
            await complaints.WriteLineAsync(error.ToString());
            return CommandRoot.WrongInput;
        }

        foreach (string note in check.Notes)
        {
            await complaints.WriteLineAsync(TextFilter.Clean($"{path}: {note}"));
        }

        foreach (string line in check.Report)
        {
            await output.WriteLineAsync(TextFilter.Clean(line));
        }

        return check.IsUndamaged ? 0 : CommandRoot.Failed;
    }
}
