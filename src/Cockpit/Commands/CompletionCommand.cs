using System.CommandLine;
using Cockpit.Core.Formats;
using Cockpit.Reports;

namespace Cockpit.Commands;

/// <summary>cockpit completion: what a shell needs so that the tabulator completes commands and options.</summary>
public static class CompletionCommand
{
    // A longer profile is none.
    private const int MostBytes = 1 << 20;

    /// <summary>The command.</summary>
    public static Command Create()
    {
        Argument<string> shell = new("shell") { HelpName = "bash|zsh|fish|pwsh", Description = "Which shell" };
        shell.AcceptOnlyFromAmong(ShellCompletion.Names);
        Option<bool> install = new("--install") { Description = "Put it where that shell looks for it, instead of printing it; again is no harm" };
        Command command = new(
            "completion",
            """
            Have the tabulator complete commands, options and their values: print the lines that a shell needs, or put them to use.

            Examples:
              cockpit completion bash --install
              cockpit completion fish
            """)
        {
            shell, install,
        };
        command.SetAction(parsed =>
        {
            string name = parsed.GetRequiredValue(shell);
            var needed = ShellCompletion.Of(
                name,
                Environment.GetFolderPath(Environment.SpecialFolder.UserProfile),
                Environment.GetFolderPath(Environment.SpecialFolder.MyDocuments),
                Environment.GetEnvironmentVariable);
            if (parsed.GetValue(install))
            {
                return Install(parsed, name, needed);
            }

            parsed.InvocationConfiguration.Output.WriteLine(needed.Script);
            return 0;
        });
        return command;
    }

    private static int Install(ParseResult parsed, string shell, ShellCompletion needed)
    {
        TextWriter complaints = parsed.InvocationConfiguration.Error;
        string file = SettingsAdder.Target(needed.File);
        try
        {
            if (File.Exists(file) && new FileInfo(file).Length > MostBytes)
            {
                complaints.WriteLine($"{file}: that is too large for a profile; print the lines with cockpit completion {shell} and add them where they belong");
                return CommandRoot.WrongInput;
            }

            string? before = File.Exists(file) ? File.ReadAllText(file) : null;
            Directory.CreateDirectory(Path.GetDirectoryName(file) ?? ".");
            if (WholeFile.Write(file, needed.Into(before), "the completion", "> FILE behind the command") is { } error)
            {
                complaints.WriteLine(error.ToString());
                return CommandRoot.Failed;
            }
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            complaints.WriteLine($"{file}: the completion cannot be put there ({FileWords.Of(failure)}); cockpit completion {shell} prints it");
            return CommandRoot.Failed;
        }

        parsed.InvocationConfiguration.Output.WriteLine($"{file}: {shell} completes cockpit from its next start on");
        return 0;
    }
}
