using Cockpit.Core.Formats;

namespace Cockpit.Settings.Stored;

/// <summary>Adds to a settings file, and leaves every letter that stands in it as it is.</summary>
public static class SettingsEdit
{
    /// <summary>Adds one table at the end.</summary>
    /// <param name="text">The file as it is; empty for a new one.</param>
    /// <param name="file">Its path, for the sentences.</param>
    /// <param name="table">Which table.</param>
    /// <param name="known">Its values by table and key.</param>
    /// <param name="named">The key that tells one of them from another.</param>
    /// <returns>The new text, or one sentence why it cannot be added.</returns>
    public static Parsed<string> Add(string text, string file, SettingTable table, IReadOnlyDictionary<(string Table, string Key), string> known, string named)
    {
        ArgumentNullException.ThrowIfNull(text);
        ArgumentNullException.ThrowIfNull(table);
        ArgumentNullException.ThrowIfNull(known);
        StoredSettings before = SettingsReader.Read(text, file);
        string name = known[(table.Name, named)];
        if (before.Root.All(table.Name).FirstOrDefault(one => string.Equals(one.Text(named), name, StringComparison.OrdinalIgnoreCase)) is { } there)
        {
            return new ParseError(file, there.Line, 0, $"{Quoted.Of(name)} is there already; change it in the file, or take another name");
        }

        string newLine = text.Contains("\r\n", StringComparison.Ordinal) ? "\r\n" : "\n";
        string begun = text.Length == 0 || text.EndsWith('\n') ? text : text + newLine;
        string after = begun + SettingsText.Table(table, known, newLine);
        StoredSettings read = SettingsReader.Read(after, file);
        bool added = read.Root.All(table.Name).Any(one => string.Equals(one.Text(named), name, StringComparison.OrdinalIgnoreCase));

        // A file that cannot take it at its end (places written as a list in one line, a mistake that swallows the rest) is left alone.
        return added && read.Mistakes.Length <= before.Mistakes.Length
            ? after
            : read.Mistakes.Except(before.Mistakes).FirstOrDefault()
              ?? new ParseError(file, 0, 0, $"{Quoted.Of(name)} cannot be added behind what stands there; mend the file first: cockpit settings check");
    }
}
