using System.Globalization;
using System.Text;

namespace Cockpit.Settings.Stored;

/// <summary>The text of a new settings file: what is known stands in it, all else as a comment beside what it is.</summary>
public static class SettingsText
{
    private const int WordsColumn = 36;

    /// <summary>Makes the text.</summary>
    /// <param name="known">Values by table and key, written as a person would say them; those of [[downlinks]] under "downlinks".</param>
    public static string New(IReadOnlyDictionary<(string Table, string Key), string> known)
    {
        ArgumentNullException.ThrowIfNull(known);
        StringBuilder text = new();
        text.Append("# Settings of Cockpit. A line that begins with # is a comment: take the # away and fill in what you need.\n");
        text.Append("# cockpit settings shows what holds, cockpit settings check looks for mistakes.\n");
        text.Append(CultureInfo.InvariantCulture, $"version = {SettingSchema.Version}\n");
        foreach (SettingTable table in SettingSchema.Root.Tables)
        {
            Add(text, "", table, known);
        }

        return text.ToString();
    }

    /// <summary>One table, to be added to a file.</summary>
    /// <param name="table">Which.</param>
    /// <param name="known">Its values, and those of the tables in it.</param>
    /// <param name="newLine">How the lines of the file end.</param>
    public static string Table(SettingTable table, IReadOnlyDictionary<(string Table, string Key), string> known, string newLine)
    {
        ArgumentNullException.ThrowIfNull(table);
        StringBuilder text = new();
        Known(text, "", table, known);
        return text.ToString().Replace("\n", newLine, StringComparison.Ordinal);
    }

    private static void Add(StringBuilder text, string path, SettingTable table, IReadOnlyDictionary<(string, string), string> known)
    {
        bool any = table.Keys.Any(key => known.ContainsKey((table.Name, key.Name)));
        string hash = any ? "" : "# ";
        text.Append(CultureInfo.InvariantCulture, $"\n# {table.Says}\n{hash}{Header(path, table)}\n");
        foreach (SettingKey key in table.Keys)
        {
            string? value = known.GetValueOrDefault((table.Name, key.Name));
            string line = value is null ? $"# {key.Name} = {Blank(key)}" : $"{key.Name} = {Literal(key, value)}";
            text.Append(CultureInfo.InvariantCulture, $"{line.PadRight(WordsColumn)} # {key.Says}\n");
        }

        foreach (SettingTable inner in table.Tables)
        {
            Add(text, path + table.Name + ".", inner, known);
        }
    }

    private static void Known(StringBuilder text, string path, SettingTable table, IReadOnlyDictionary<(string, string), string> known)
    {
        SettingKey[] keys = [.. table.Keys.Where(key => known.ContainsKey((table.Name, key.Name)))];
        if (keys.Length == 0)
        {
            return;
        }

        text.Append(CultureInfo.InvariantCulture, $"\n{Header(path, table)}\n");
        foreach (SettingKey key in keys)
        {
            text.Append(CultureInfo.InvariantCulture, $"{key.Name} = {Literal(key, known[(table.Name, key.Name)])}\n");
        }

        foreach (SettingTable inner in table.Tables)
        {
            Known(text, path + table.Name + ".", inner, known);
        }
    }

    private static string Header(string path, SettingTable table) => table.Many ? $"[[{path}{table.Name}]]" : $"[{path}{table.Name}]";

    private static string Blank(SettingKey key) => key.Kind switch
    {
        SettingKind.Number => "0.0",
        SettingKind.Switch => "false",
        _ => "\"\"",
    };

    private static string Literal(SettingKey key, string value) => key.Kind switch
    {
        SettingKind.Number or SettingKind.Switch => value,
        SettingKind.TextOrNumber when value.Length > 0 && value.All(char.IsAsciiDigit) => value,
        _ => Quoted(value),
    };

    /// <summary>A basic string of TOML 1.0: backslash, quotation mark and control characters are escaped.</summary>
    internal static string Quoted(string value)
    {
        StringBuilder text = new("\"");
        foreach (char letter in value)
        {
            _ = letter switch
            {
                '\\' or '"' => text.Append('\\').Append(letter),
                < ' ' or '\x7F' => text.Append(CultureInfo.InvariantCulture, $"\\u{(int)letter:X4}"),
                _ => text.Append(letter),
            };
        }

        return text.Append('"').ToString();
    }
}
