using System.CommandLine;
using Cockpit.Settings.Stored;
using ParseError = Cockpit.Core.Formats.ParseError;

namespace Cockpit.Commands;

/// <summary>cockpit settings check: every mistake with its place.</summary>
internal static class SettingsCheckCommand
{
    public static Command Create()
    {
        var path = new Argument<string?>("file") { HelpName = "FILE", Description = "The file; the usual one where missing", Arity = ArgumentArity.ZeroOrOne };
        Command command = new(
            "check",
            """
            Name every mistake of the settings with line and column, and what to write there. The exit code is 1 where there is one.
            """)
        {
            path,
        };
        command.SetAction(parsed =>
        {
            TextWriter complaints = parsed.InvocationConfiguration.Error;
            string file = parsed.GetValue(path) ?? parsed.GetValue(CommandRoot.SettingsOption) ?? SettingsFile.UsualPath;
            (StoredSettings? settings, ParseError? trouble) = SettingsFile.Load(file);
            if (settings is null)
            {
                complaints.WriteLine((trouble ?? new ParseError(file, 0, 0, "there is no such file of settings; cockpit settings new writes one")).ToString());
                return CommandRoot.WrongInput;
            }

            foreach (string sentence in settings.Mistakes.Select(mistake => mistake.ToString()).Concat(new[] { settings.Caution }.OfType<string>()))
            {
                complaints.WriteLine(sentence);
            }

            if (settings.Mistakes.IsEmpty)
            {
                parsed.InvocationConfiguration.Output.WriteLine($"{file}: no mistakes");
            }

            return settings.Mistakes.IsEmpty ? 0 : CommandRoot.Failed;
        });
        return command;
    }
}
