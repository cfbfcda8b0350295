using System.Collections.Immutable;
using System.Globalization;
using Cockpit.Core.Formats;
using Tomlyn;
using Tomlyn.Parsing;
using Tomlyn.Syntax;

namespace Cockpit.Settings.Toml;

/// <summary>Reads TOML 1.1 (toml.io) into a tree that knows where everything stands; what cannot be read is told and the rest kept.</summary>
internal sealed class TomlReading
{
    /// <summary>Tables within tables; settings need three.</summary>
    private const int Deepest = 8;

    private readonly string _file;
    private readonly List<ParseError> _mistakes = [];

    private TomlReading(string file) => _file = file;

    /// <summary>Reads a document.</summary>
    /// <param name="text">All of it.</param>
    /// <param name="file">What it is called in the sentences.</param>
    /// <returns>What could be read, and what could not, in the order of the file.</returns>
    public static (TomlTable Root, ImmutableArray<ParseError> Mistakes) Read(string text, string file)
    {
        TomlReading reading = new(file);
        TomlTable root = new(1, 1);
        DocumentSyntax document;
        try
        {
            document = SyntaxParser.Parse(text, file);
        }
        catch (TomlException)
        {
            // All else is told as a diagnostic; this is the parser's guard of its own stack.
            return (root, [new ParseError(file, 0, 0, "lists or tables lie more than 64 deep, so nothing of it was read; no setting needs that")]);
        }

        int before = -1;
        foreach (DiagnosticMessage message in document.Diagnostics)
        {
            // What the parser says of the rest of a line, and of the line after it, only follows from the first.
            int line = Line(message.Span);
            if (before < 0 || line > before + 1 || line < before)
            {
                reading.Add(message.Span, Sentence(message.Message));
            }

            before = line;
        }

        reading.Take(root, document.KeyValues, 0);
        foreach (TableSyntaxBase table in document.Tables)
        {
            if (table.Name is { } name && reading.Open(root, table, [.. Parts(name)]) is { } opened)
            {
                reading.Take(opened, table.Items, 0);
            }
        }

        return (root, [.. reading._mistakes.OrderBy(mistake => mistake.Line).ThenBy(mistake => mistake.Column)]);
    }

    /// <summary>The parser's words without its names for tokens, which only its makers know.</summary>
    private static string Sentence(string message)
    {
        string words = message.ReplaceLineEndings(" ").Replace("␤", "end of line", StringComparison.Ordinal);
        for (int from = words.IndexOf(" (token: ", StringComparison.Ordinal); from >= 0; from = words.IndexOf(" (token: ", StringComparison.Ordinal))
        {
            int to = words.IndexOf(')', from);
            words = to < 0 ? words[..from] : words.Remove(from, to + 1 - from);
        }

        // What stood there is in the file for everyone to see.
        int with = words.IndexOf(" with `", StringComparison.Ordinal);
        int and = words.IndexOf(" and cannot be redefined", StringComparison.Ordinal);
        words = with >= 0 && and > with ? words.Remove(with, and - with) : words;
        return $"this is not TOML (toml.io): {words.TrimEnd('.')}";
    }

    private void Take(TomlTable table, IEnumerable<KeyValueSyntax> pairs, int depth)
    {
        foreach (KeyValueSyntax pair in pairs)
        {
            if (pair.Key is not { } key || pair.Value is not { } value || Parts(key).ToArray() is not [.. var path, var last])
            {
                continue;
            }

            TomlTable? target = table;
            foreach (string part in path)
            {
                target = target is null ? null : Into(target, part, key.Span);
            }

            if (target is not null && IsFree(target, last, key.Span))
            {
                target.Entries.Add(new TomlEntry(last, Line(key.Span), Column(key.Span), ValueOf(value, depth)));
            }
        }
    }

    private bool IsFree(TomlTable table, string key, SourceSpan at)
    {
        if (table.Find(key) is not { } there)
        {
            return true;
        }

        AddOnce(at, string.Create(CultureInfo.InvariantCulture, $"{Quoted.Of(key)} stands in line {there.Line} already; take one of the two out"));
        return false;
    }

    private TomlValue ValueOf(ValueSyntax value, int depth)
    {
        int line = Line(value.Span);
        int column = Column(value.Span);
        switch (value)
        {
            case StringValueSyntax text:
                return new TomlScalar(TomlKind.Text, text.Value ?? "", line, column);
            case IntegerValueSyntax whole:
                return new TomlScalar(TomlKind.Whole, whole.Value.ToString(CultureInfo.InvariantCulture), line, column);
            case FloatValueSyntax real:
                return new TomlScalar(TomlKind.Real, real.Value.ToString("R", CultureInfo.InvariantCulture), line, column);
            case BooleanValueSyntax on:
                return new TomlScalar(TomlKind.Switch, on.Value ? "true" : "false", line, column);
            case InlineTableSyntax inline when depth < Deepest:
                return new TomlOne(TableOf(inline, depth), line, column);
            case ArraySyntax array when depth < Deepest && array.Items.All(item => item.Value is InlineTableSyntax):
                return new TomlMany([.. array.Items.Select(item => item.Value).OfType<InlineTableSyntax>().Select(table => TableOf(table, depth))], line, column);
            default:
                return new TomlOther(line, column);
        }
    }

    private TomlTable TableOf(InlineTableSyntax inline, int depth)
    {
        TomlTable table = new(Line(inline.Span), Column(inline.Span));
        Take(table, inline.Items.Select(item => item.KeyValue).OfType<KeyValueSyntax>(), depth + 1);
        return table;
    }

    /// <summary>The table that a header opens; null where the way there is blocked.</summary>
    private TomlTable? Open(TomlTable root, TableSyntaxBase header, string[] path)
    {
        if (path.Length is 0 or > Deepest)
        {
            AddOnce(header.Span, "this table lies too deep; no setting does");
            return null;
        }

        TomlTable? parent = root;
        foreach (string part in path[..^1])
        {
            parent = parent is null ? null : Into(parent, part, header.Span);
        }

        if (parent is null)
        {
            return null;
        }

        TomlTable opened = new(Line(header.Span), Column(header.Span));
        bool many = header is TableArraySyntax;
        switch (parent.Find(path[^1]))
        {
            case null:
                TomlValue value = many ? new TomlMany([opened], opened.Line, opened.Column) : new TomlOne(opened, opened.Line, opened.Column);
                parent.Entries.Add(new TomlEntry(path[^1], opened.Line, opened.Column, value));
                return opened;
            case { Value: TomlMany before } entry when many:
                parent.Entries[parent.Entries.IndexOf(entry)] = entry with { Value = before with { Tables = before.Tables.Add(opened) } };
                return opened;
            case { Value: TomlOne { Table: var table } } when !many:
                return table;
            case { } other:
                AddOnce(header.Span, string.Create(CultureInfo.InvariantCulture, $"{Quoted.Of(path[^1])} stands in line {other.Line} as something else; write it one way"));
                return null;
        }
    }

    private TomlTable? Into(TomlTable table, string part, SourceSpan at)
    {
        switch (table.Find(part)?.Value)
        {
            case null:
                TomlTable made = new(Line(at), Column(at));
                table.Entries.Add(new TomlEntry(part, made.Line, made.Column, new TomlOne(made, made.Line, made.Column)));
                return made;
            case TomlOne one:
                return one.Table;
            case TomlMany { Tables: [.., var last] }:
                return last;
            default:
                AddOnce(at, $"{Quoted.Of(part)} is a value above and a table here; write it one way");
                return null;
        }
    }

    private static IEnumerable<string> Parts(KeySyntax key) =>
        new[] { key.Key }.Concat(key.DotKeys.Select(item => item.Key)).Select(part => part switch
        {
            BareKeySyntax bare => bare.Key?.Text ?? "",
            StringValueSyntax text => text.Value ?? "",
            _ => "",
        });

    /// <summary>The parser may have told of it in its own words.</summary>
    private void AddOnce(SourceSpan at, string sentence)
    {
        if (!_mistakes.Exists(mistake => mistake.Line == Line(at)))
        {
            Add(at, sentence);
        }
    }

    private void Add(SourceSpan at, string sentence) => _mistakes.Add(new ParseError(_file, Line(at), Column(at), sentence));

    private static int Line(SourceSpan span) => Math.Max(0, span.Start.Line) + 1;

    private static int Column(SourceSpan span) => Math.Max(0, span.Start.Column) + 1;
}
