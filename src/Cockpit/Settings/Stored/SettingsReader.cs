using System.Collections.Immutable;
using System.Globalization;
using Cockpit.Core.Formats;
using Cockpit.Settings.Toml;

namespace Cockpit.Settings.Stored;

/// <summary>Reads the text of a settings file: what is good in it, and every mistake with its place.</summary>
public sealed class SettingsReader
{
    private readonly string _file;
    private readonly List<ParseError> _mistakes = [];
    private bool _newer;

    private SettingsReader(string file) => _file = file;

    /// <summary>Reads settings.</summary>
    /// <param name="text">All of the file.</param>
    /// <param name="file">Its path: for the sentences, and for the paths in it.</param>
    public static StoredSettings Read(string text, string file)
    {
        ArgumentNullException.ThrowIfNull(text);
        SettingsReader reader = new(file);
        (TomlTable root, ImmutableArray<ParseError> mistakes) = TomlReading.Read(text, file);
        reader._newer = root.Find("version")?.Value is TomlScalar { Kind: TomlKind.Whole } version
            && double.Parse(version.Text, CultureInfo.InvariantCulture) > SettingSchema.Version;
        StoredTable stored = reader.Table(SettingSchema.Root, root);
        reader.NamesOf(stored, "place", "places");
        reader.NamesOf(stored, "dish", "dishes");
        string? caution = reader._newer
            ? $"{file}: it was written for a newer version of the program; what is not known here is passed over"
            : null;
        return new StoredSettings(file, stored, [.. mistakes.Concat(reader._mistakes).OrderBy(mistake => mistake.Line).ThenBy(mistake => mistake.Column)], caution);
    }

    private StoredTable Table(SettingTable schema, TomlTable table)
    {
        var values = ImmutableDictionary.CreateBuilder<string, StoredValue>(StringComparer.Ordinal);
        var tables = ImmutableArray.CreateBuilder<StoredTable>();
        foreach (TomlEntry entry in table.Entries)
        {
            if (schema.Keys.FirstOrDefault(key => string.Equals(key.Name, entry.Key, StringComparison.Ordinal)) is { } key)
            {
                if (Value(key, entry.Value) is { } value)
                {
                    values[key.Name] = value;
                }
            }
            else if (schema.Tables.FirstOrDefault(inner => string.Equals(inner.Name, entry.Key, StringComparison.Ordinal)) is { } inner)
            {
                tables.AddRange(Inner(inner, entry));
            }
            else if (!_newer)
            {
                Unknown(schema, entry);
            }
        }

        return new StoredTable(schema, table.Line, values.ToImmutable(), tables.ToImmutable());
    }

    private StoredTable[] Inner(SettingTable schema, TomlEntry entry)
    {
        ImmutableArray<TomlTable> found = entry.Value switch
        {
            TomlMany many when schema.Many => many.Tables,
            TomlOne one when !schema.Many => [one.Table],
            _ => default,
        };
        if (found.IsDefault)
        {
            Add(entry.Line, entry.Column, $"{Quoted.Of(schema.Name)} is written {(schema.Many ? $"[[{schema.Name}]], once for each" : $"[{schema.Name}], once")}");
            return [];
        }

        return [.. found.Select(table => (Source: table, Read: Table(schema, table))).Where(pair => IsWhole(schema, pair.Source, pair.Read)).Select(pair => pair.Read)];
    }

    /// <summary>A place without its latitude is none; what was wrong with a key that stands there was told already.</summary>
    private bool IsWhole(SettingTable schema, TomlTable source, StoredTable read)
    {
        SettingKey[] missing = [.. schema.Keys.Where(key => key.Required && !read.Values.ContainsKey(key.Name))];
        string[] absent = [.. missing.Where(key => source.Find(key.Name) is null).Select(key => key.Name)];
        if (absent.Length > 0)
        {
            Add(source.Line, source.Column, $"{(schema.Many ? $"one of [[{schema.Name}]]" : $"[{schema.Name}]")} has no {string.Join(" and no ", absent)}; without it the whole of it is passed over");
        }

        return missing.Length == 0;
    }

    private StoredValue? Value(SettingKey key, TomlValue value)
    {
        string? wanted = key.Kind switch
        {
            SettingKind.Text when value is not TomlScalar { Kind: TomlKind.Text } => "a text in quotes",
            SettingKind.Number when value is not TomlScalar { Kind: TomlKind.Whole or TomlKind.Real } => "a number without quotes",
            SettingKind.Switch when value is not TomlScalar { Kind: TomlKind.Switch } => "true or false",
            SettingKind.TextOrNumber when value is not TomlScalar { Kind: TomlKind.Text or TomlKind.Whole } => "a text in quotes or a whole number",
            _ => null,
        };
        if (wanted is not null || value is not TomlScalar scalar)
        {
            Add(value.Line, value.Column, $"{key.Name} is {wanted}");
            return null;
        }

        if (scalar.Text.Any(char.IsControl))
        {
            Add(value.Line, value.Column, $"{key.Name} is one line of text without control characters; a backslash is written \\\\, or the whole in single quotes");
            return null;
        }

        if (key.Check(scalar.Text) is { } wrong)
        {
            Add(value.Line, value.Column, $"{key.Name}: {wrong}");
            return null;
        }

        return new StoredValue(scalar.Text, value.Line, value.Column);
    }

    private void Unknown(SettingTable schema, TomlEntry entry)
    {
        string where = schema.Name.Length == 0 ? "the settings" : schema.Many ? $"[[{schema.Name}]]" : $"[{schema.Name}]";
        string meant = NearestWord.Of(entry.Key, schema.Words) is { } near ? $"did you mean {near}?" : $"known are {string.Join(", ", schema.Words)}";
        Add(entry.Line, entry.Column, $"{Quoted.Of(entry.Key)} is not known in {where}; {meant}");
    }

    /// <summary>The one in use has to be there, and no two may have one name.</summary>
    private void NamesOf(StoredTable root, string key, string tables)
    {
        StoredTable[] all = [.. root.All(tables)];
        foreach (IGrouping<string?, StoredTable> same in all.GroupBy(table => table.Text("name"), StringComparer.OrdinalIgnoreCase).Where(group => group.Count() > 1))
        {
            Add(same.ElementAt(1).Line, 1, $"there are two of [[{tables}]] with the name {Quoted.Of(same.Key)}; give them two names");
        }

        if (root.Values.GetValueOrDefault(key) is { } used && !all.Any(table => string.Equals(table.Text("name"), used.Text, StringComparison.OrdinalIgnoreCase)))
        {
            string known = all.Length == 0 ? $"there are no [[{tables}]]" : $"known are {string.Join(", ", all.Select(table => table.Text("name")))}";
            Add(used.Line, used.Column, $"{key}: {Quoted.Of(used.Text)} is none of [[{tables}]]; {known}");
        }
    }

    private void Add(int line, int column, string sentence) => _mistakes.Add(new ParseError(_file, line, column, sentence));
}
