using System.CommandLine;
using Cockpit.Settings.Stored;
using ParseError = Cockpit.Core.Formats.ParseError;

namespace Cockpit.Commands;

/// <summary>cockpit settings: what holds, and where it comes from.</summary>
public static class SettingsCommand
{
    /// <summary>The word for it.</summary>
    public const string Name = "settings";

    private static readonly OutputColumn[] Columns = [new("setting", "setting", -28), new("value", "value", -44), new("from", "from", -30)];

    /// <summary>The command.</summary>
    public static Command Create()
    {
        Option<OutputFormat> format = CommonOptions.Format();
        Option<string>[] options = [.. Options()];
        Command command = new(
            Name,
            """
            Show what holds and where each value comes from: an option, a line of the settings, or nothing, which means the usual.
            The options are those of the other commands: with them it shows what such a command would take.

            Examples:
              cockpit settings
              cockpit settings --station 47.8,11.2,520 --format json
            """)
        {
            format, SettingsCheckCommand.Create(), SettingsNewCommand.Create(),
        };
        foreach (Option<string> option in options)
        {
            command.Options.Add(option);
        }

        command.SetAction(parsed =>
        {
            TextWriter complaints = parsed.InvocationConfiguration.Error;
            if (!StoredWords.Load(parsed, SettingsFile.UsualPath).Try(out StoredWords.Found? found, out ParseError? error) || (error = found.Trouble) is not null)
            {
                complaints.WriteLine(error.ToString());
                return CommandRoot.WrongInput;
            }

            Dictionary<string, string> given = [];
            foreach (Option<string> option in options)
            {
                if (parsed.GetValue(option) is { } value)
                {
                    given[option.Name] = value;
                }
            }

            complaints.WriteLine(found.Settings is null ? $"{found.Path}: there is no such file yet; cockpit settings new writes one" : $"settings: {found.Path}");
            var rows = new OutputRows(parsed.InvocationConfiguration.Output, parsed.GetValue(format), Columns);
            rows.Begin();
            foreach (SettingRow row in SettingRow.All(found.Settings, given))
            {
                rows.Add([Cell.Of(row.Name), Cell.Of(row.Value), Cell.Of(row.From)]);
            }

            rows.End();
            foreach (ParseError mistake in found.Settings?.Mistakes ?? [])
            {
                complaints.WriteLine($"{mistake} (passed over)");
            }

            return 0;
        });
        return command;
    }

    private static IEnumerable<Option<string>> Options() =>
        SettingRow.OptionNames.Select(name => new Option<string>(name) { Description = "As in the other commands", HelpName = "VALUE" });
}
