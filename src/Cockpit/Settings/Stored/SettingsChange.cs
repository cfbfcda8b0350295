using Cockpit.Core.Formats;

namespace Cockpit.Settings.Stored;

/// <summary>Changes one value in a settings file, and leaves every other letter as it is.</summary>
public static class SettingsChange
{
    /// <summary>Sets a key of a place.</summary>
    /// <param name="text">The file as it is.</param>
    /// <param name="file">Its path, for the sentences.</param>
    /// <param name="place">Name of the place.</param>
    /// <param name="key">The key, of kind text.</param>
    /// <param name="value">Its value.</param>
    /// <returns>The new text, or one sentence why it cannot be changed.</returns>
    public static Parsed<string> OfPlace(string text, string file, string place, string key, string value)
    {
        ArgumentNullException.ThrowIfNull(text);
        ArgumentNullException.ThrowIfNull(key);
        StoredSettings before = SettingsReader.Read(text, file);
        if (Find(before, place) is not { } table)
        {
            string known = string.Join(", ", before.Root.All("places").Select(one => one.Text("name")));
            return new ParseError(file, 0, 0, known.Length == 0
                ? "there is no place in it; cockpit place add makes one"
                : $"there is no place {Quoted.Of(place)} in it; there is {known}");
        }

        string wanted = $"{key} = {SettingsText.Quoted(value)}";
        string newLine = text.Contains("\r\n", StringComparison.Ordinal) ? "\r\n" : "\n";
        List<string> lines = [.. text.Split('\n')];
        if (table.Values.GetValueOrDefault(key) is { } there)
        {
            string old = lines[there.Line - 1];
            int comment = CommentOf(old);
            lines[there.Line - 1] = Indent(old) + wanted + (comment < 0 ? old.EndsWith('\r') ? "\r" : "" : "  " + old[comment..]);
        }
        else
        {
            int last = table.Values.Values.Max(one => one.Line);
            lines.Insert(last, Indent(lines[last - 1]) + wanted + newLine[..^1]);
        }

        string after = string.Join('\n', lines);
        StoredSettings read = SettingsReader.Read(after, file);

        // A file that is written in another way than one key a line cannot be changed so, and is left alone.
        return string.Equals(Find(read, place)?.Text(key), value, StringComparison.Ordinal) && SameBut(before, read, place, key)
            ? after
            : new ParseError(file, table.Line, 0, $"{key} cannot be changed there by a program; write it yourself: {wanted}");
    }

    private static StoredTable? Find(StoredSettings settings, string place) =>
        settings.Root.All("places").FirstOrDefault(one => string.Equals(one.Text("name"), place, StringComparison.OrdinalIgnoreCase));

    /// <summary>Whether all else reads as before.</summary>
    private static bool SameBut(StoredSettings before, StoredSettings after, string place, string key) =>
        before.Mistakes.Length >= after.Mistakes.Length
        && Values(before.Root, place, key).SequenceEqual(Values(after.Root, place, key), StringComparer.Ordinal);

    private static IEnumerable<string> Values(StoredTable table, string place, string key)
    {
        bool isPlace = table.Schema.Name is "places" && string.Equals(table.Text("name"), place, StringComparison.OrdinalIgnoreCase);
        IEnumerable<string> own = table.Values.Where(pair => !(isPlace && string.Equals(pair.Key, key, StringComparison.Ordinal)))
            .Select(pair => $"{table.Schema.Name}.{pair.Key}={pair.Value.Text}").Order(StringComparer.Ordinal);
        return own.Concat(table.Tables.SelectMany(inner => Values(inner, place, key)));
    }

    private static string Indent(string line) => line[..^line.TrimStart().Length];

    /// <summary>Where the comment of a line begins; -1 without one. A value in quotes is no comment.</summary>
    private static int CommentOf(string line)
    {
        char quote = '\0';
        for (int at = 0; at < line.Length; at++)
        {
            char letter = line[at];
            if (quote != '\0')
            {
                at += letter == '\\' && quote == '"' ? 1 : 0;
                quote = letter == quote ? '\0' : quote;
            }
            else if (letter is '"' or '\'')
            {
                quote = letter;
            }
            else if (letter == '#')
            {
                return at;
            }
        }

        return -1;
    }
}
