using System.Collections.Immutable;
using Cockpit.Core.Formats;

namespace Cockpit.Settings.Stored;

/// <summary>How the value of a key is written.</summary>
public enum SettingKind
{
    /// <summary>Text in quotes.</summary>
    Text = 0,

    /// <summary>A number.</summary>
    Number = 1,

    /// <summary>true or false.</summary>
    Switch = 2,

    /// <summary>Text in quotes, or a whole number.</summary>
    TextOrNumber = 3,
}

/// <summary>One key that the settings may hold.</summary>
/// <param name="Name">The key; the unit stands in it.</param>
/// <param name="Kind">How its value is written.</param>
/// <param name="Says">What it is, for the comment beside it.</param>
/// <param name="Check">Why a value is wrong, given its text; null when it is right.</param>
/// <param name="Option">The option it stands for; null where a command reads it otherwise.</param>
/// <param name="Required">Its table is nothing without it.</param>
/// <param name="IsPath">A relative path in it belongs to the folder of the file.</param>
public sealed record SettingKey(
    string Name, SettingKind Kind, string Says, Func<string, string?> Check, string? Option = null, bool Required = false, bool IsPath = false);

/// <summary>One table of the settings.</summary>
/// <param name="Name">Its name; empty for the root.</param>
/// <param name="Many">There may be several, as [[name]].</param>
/// <param name="Says">What it is, for the comment above it.</param>
/// <param name="Keys">What it holds.</param>
/// <param name="Tables">The tables within it.</param>
public sealed record SettingTable(string Name, bool Many, string Says, ImmutableArray<SettingKey> Keys, ImmutableArray<SettingTable> Tables)
{
    /// <summary>Every word that may stand in it.</summary>
    public IEnumerable<string> Words => Keys.Select(key => key.Name).Concat(Tables.Select(table => table.Name));
}

/// <summary>A value as it stands in the file.</summary>
/// <param name="Text">The value, as an option would be given it.</param>
/// <param name="Line">Where, from 1.</param>
/// <param name="Column">Where, from 1.</param>
public sealed record StoredValue(string Text, int Line, int Column);

/// <summary>A table as it stands in the file, with what was good in it.</summary>
/// <param name="Schema">What it may hold.</param>
/// <param name="Line">Where it begins.</param>
/// <param name="Values">Its good values, by key.</param>
/// <param name="Tables">Its good tables, in the order of the file.</param>
public sealed record StoredTable(SettingTable Schema, int Line, ImmutableDictionary<string, StoredValue> Values, ImmutableArray<StoredTable> Tables)
{
    /// <summary>The text of a key; null where it is missing or was wrong.</summary>
    public string? Text(string key) => Values.GetValueOrDefault(key)?.Text;

    /// <summary>The number of a key; null where it is missing or was wrong.</summary>
    public double? Number(string key) => Text(key) is { } text && NumberText.TryRead(text, out double number) ? number : null;

    /// <summary>The tables of a name.</summary>
    public IEnumerable<StoredTable> All(string name) => Tables.Where(table => string.Equals(table.Schema.Name, name, StringComparison.Ordinal));

    /// <summary>The only table of a name; null where there is none.</summary>
    public StoredTable? One(string name) => All(name).FirstOrDefault();
}
