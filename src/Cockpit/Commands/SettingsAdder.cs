using System.CommandLine;
using Cockpit.Core.Formats;
using Cockpit.Reports;
using Cockpit.Settings.Stored;
using ParseError = Cockpit.Core.Formats.ParseError;

namespace Cockpit.Commands;

/// <summary>Adds one table to the file of settings, for the commands that do.</summary>
internal static class SettingsAdder
{
    /// <summary>Adds and says so.</summary>
    /// <param name="parsed">The command line.</param>
    /// <param name="table">Name of the table.</param>
    /// <param name="named">The key that tells one of them from another.</param>
    /// <param name="known">Its values by table and key.</param>
    /// <returns>The exit code.</returns>
    public static int Run(ParseResult parsed, string table, string named, IReadOnlyDictionary<(string Table, string Key), string> known)
    {
        TextWriter complaints = parsed.InvocationConfiguration.Error;
        string file = Target(parsed.GetValue(CommandRoot.SettingsOption) ?? SettingsFile.UsualPath);
        try
        {
            if (!File.Exists(file))
            {
                complaints.WriteLine($"{file}: there is no such file of settings; cockpit settings new writes one");
                return CommandRoot.WrongInput;
            }

            if (new FileInfo(file).Length > SettingsFile.MostBytes)
            {
                complaints.WriteLine($"{file}: that is too large for a file of settings");
                return CommandRoot.WrongInput;
            }

            SettingTable schema = SettingSchema.Root.Tables.First(one => string.Equals(one.Name, table, StringComparison.Ordinal));
            if (!SettingsEdit.Add(File.ReadAllText(file), file, schema, known, named).Try(out string? text, out ParseError? error)
                || (error = WholeFile.Write(file, text, "the file of settings", "--settings")) is not null)
            {
                complaints.WriteLine(error.ToString());
                return CommandRoot.WrongInput;
            }
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            complaints.WriteLine($"{file}: the settings cannot be read ({FileWords.Of(failure)})");
            return CommandRoot.Failed;
        }

        parsed.InvocationConfiguration.Output.WriteLine($"{file}: {known[(table, named)]} is added");
        return 0;
    }

    /// <summary>A link stays a link: what it points to is written.</summary>
    internal static string Target(string file)
    {
        try
        {
            return File.ResolveLinkTarget(file, returnFinalTarget: true)?.FullName ?? file;
        }
        catch (IOException)
        {
            return file;
        }
    }
}
