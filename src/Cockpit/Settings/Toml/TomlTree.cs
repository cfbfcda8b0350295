using System.Collections.Immutable;

namespace Cockpit.Settings.Toml;

/// <summary>A table of a TOML document, with the place of everything in it.</summary>
/// <param name="Line">Of its header, from 1.</param>
/// <param name="Column">Of its header, from 1.</param>
internal sealed record TomlTable(int Line, int Column)
{
    /// <summary>Its keys in the order of the file.</summary>
    public List<TomlEntry> Entries { get; } = [];

    /// <summary>The entry of a key; null where it has none.</summary>
    public TomlEntry? Find(string key) => Entries.Find(entry => string.Equals(entry.Key, key, StringComparison.Ordinal));
}

/// <summary>A key with what it holds.</summary>
/// <param name="Key">The key, without dots.</param>
/// <param name="Line">Of the key, from 1.</param>
/// <param name="Column">Of the key, from 1.</param>
/// <param name="Value">What it holds.</param>
internal sealed record TomlEntry(string Key, int Line, int Column, TomlValue Value);

/// <summary>What a key holds.</summary>
/// <param name="Line">From 1.</param>
/// <param name="Column">From 1.</param>
internal abstract record TomlValue(int Line, int Column);

/// <summary>A text, a number, true or false.</summary>
/// <param name="Kind">Which.</param>
/// <param name="Line">From 1.</param>
/// <param name="Column">From 1.</param>
/// <param name="Text">A number in the shortest way that reads back the same; "true" or "false".</param>
internal sealed record TomlScalar(TomlKind Kind, string Text, int Line, int Column) : TomlValue(Line, Column);

/// <summary>A table, as [name] or {...}.</summary>
internal sealed record TomlOne(TomlTable Table, int Line, int Column) : TomlValue(Line, Column);

/// <summary>Several tables, as [[name]] or [{...}, ...].</summary>
internal sealed record TomlMany(ImmutableArray<TomlTable> Tables, int Line, int Column) : TomlValue(Line, Column);

/// <summary>Anything else: dates, lists of what is no table.</summary>
internal sealed record TomlOther(int Line, int Column) : TomlValue(Line, Column);

/// <summary>Kinds of a single value.</summary>
internal enum TomlKind
{
    /// <summary>Text in quotes.</summary>
    Text = 0,

    /// <summary>A whole number.</summary>
    Whole = 1,

    /// <summary>A number with a decimal point or an exponent; nan and inf too.</summary>
    Real = 2,

    /// <summary>true or false.</summary>
    Switch = 3,
}
