using System.CommandLine;
using System.Globalization;
using Cockpit.Devices.Journal;
using Cockpit.Wiring;
using ParseError = Cockpit.Core.Formats.ParseError;

namespace Cockpit.Commands;

/// <summary>cockpit sessions mend: explains what is damaged in a session and saves the rest beside it.</summary>
public static class MendCommand
{
    /// <summary>The command.</summary>
    public static Command Create()
    {
        Argument<string> path = new("session") { HelpName = "SESSION", Description = "Folder of the session" };
        Command command = new(
            "mend",
            $"""
            Say what is damaged in a session and what is lost by it, and save the rest as a session of its own beside it (…{SessionMender.Ending}).

            The damaged one is never touched. A session that was only cut off between two lines is not damaged.

            Example:
              cockpit sessions mend sessions/2026-11-25T172440Z-petrel-2
            """) { path };
        command.SetAction(parsed =>
        {
            TextWriter output = parsed.InvocationConfiguration.Output;
            if (!SessionMender.Mend(parsed.GetRequiredValue(path), ProgramVersion.Text).Try(out MendedSession? mended, out ParseError? error))
            {
                parsed.InvocationConfiguration.Error.WriteLine(error.ToString());
                return CommandRoot.WrongInput;
            }

            foreach (string loss in mended.Losses)
            {
                output.WriteLine(loss);
            }

            output.WriteLine(mended.Folder is { } folder
                ? string.Create(CultureInfo.InvariantCulture, $"{mended.Damaged.Envelopes.Length} events are saved in {folder.Path}")
                : "nothing is damaged, so there is nothing to mend");
            return 0;
        });
        return command;
    }
}
