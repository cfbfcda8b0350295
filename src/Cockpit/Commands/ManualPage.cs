using System.CommandLine;
using System.Globalization;
using System.Text;
using Cockpit.Screen.Keys;

namespace Cockpit.Commands;

/// <summary>The manual page of the program, from the descriptions of its own command line and its own table of keys. Pure.</summary>
/// <remarks>In the man macros of roff (man(7)); every line of text is escaped, so that nothing in it is taken for a request.</remarks>
internal sealed class ManualPage
{
    private readonly StringBuilder _page = new();
    private bool _headed;

    private ManualPage()
    {
    }

    /// <summary>The page.</summary>
    /// <param name="root">The whole command line.</param>
    /// <param name="version">Of the program.</param>
    /// <param name="date">Of the page.</param>
    public static string Of(RootCommand root, string version, DateOnly date)
    {
        ArgumentNullException.ThrowIfNull(root);
        ManualPage page = new();
        page.Line(string.Create(CultureInfo.InvariantCulture, $".TH COCKPIT 1 {date:yyyy-MM-dd} \"Cockpit {version}\""));
        page.Section("NAME");
        page.Line("cockpit \\- steer a dish by hand after a low\\-orbit weather satellite");
        page.Section("SYNOPSIS");
        page.Line(".B cockpit\n.RI [ command ]\n.RI [ options ]");
        page.Section("DESCRIPTION");
        page.Prose(root.Description ?? "");
        page.Prose("Without a command the demo runs: a simulated pass, already under way, with no hardware and no configuration.");
        page.Section("OPTIONS OF EVERY COMMAND");
        page.Options(root.Options.Where(option => option.Recursive || option is System.CommandLine.Help.HelpOption or VersionOption));
        page.Section("COMMANDS");
        page.Commands(root, "cockpit");
        page.Keys();
        page.Rest();
        return page._page.ToString();
    }

    private void Commands(Command parent, string path)
    {
        foreach (Command command in parent.Subcommands.Where(command => !command.Hidden))
        {
            string name = $"{path} {command.Name}";
            string arguments = string.Concat(command.Arguments.Where(argument => !argument.Hidden).Select(argument => $" {(argument.Arity.MinimumNumberOfValues == 0 ? $"[{Name(argument)}]" : Name(argument))}"));
            Line($".SS {Quoted(name + arguments)}");
            Prose(command.Description ?? "");
            Options(command.Options.Where(option => !option.Hidden && !option.Recursive && option is not System.CommandLine.Help.HelpOption));
            Commands(command, name);
        }
    }

    private void Options(IEnumerable<Option> options)
    {
        foreach (Option option in options)
        {
            IEnumerable<string> names = option.Aliases.Where(alias => alias.StartsWith('-')).Prepend(option.Name).Distinct(StringComparer.Ordinal);
            string value = option.ValueType == typeof(bool) || option.HelpName is not { Length: > 0 } help ? "" : $" \\fI{Escaped(help)}\\fR";
            Line(".TP");
            Line($"{string.Join(", ", names.Select(name => $"\\fB{Escaped(name)}\\fR"))}{value}");
            Line(Safe(Escaped((option.Description ?? "").ReplaceLineEndings(" "))));
        }
    }

    private void Keys()
    {
        Section("KEYS");
        foreach ((string head, KeyScope scope) in new[] { ("everywhere", KeyScope.Always), ("in a pass", KeyScope.Pass), ("in a rehearsal", KeyScope.Rehearsal), ("in a replay", KeyScope.Replay) })
        {
            Line($".SS {Quoted(head)}");
            foreach (KeyEntry key in KeyTable.All.Where(key => key.Scope == scope))
            {
                Line(".TP");
                Line($"\\fB{Escaped(key.Shown)}\\fR");
                Line(Safe(Escaped(key.Help)));
            }
        }
    }

    private void Rest()
    {
        Section("FILES");
        Prose("Settings stand in one file, sessions in one folder: \"cockpit settings\" says where both are and where each value comes from.");
        Section("ENVIRONMENT");
        Prose("NO_COLOR: no colours. LC_ALL, LC_CTYPE, LANG: where they do not say UTF-8, screen and text are drawn in seven bits. XDG_CONFIG_HOME, XDG_DATA_HOME, XDG_CACHE_HOME: where settings, sessions and spoken words are kept.");
        Section("EXIT STATUS");
        Prose("0 done; 1 it failed; 2 the words or the input are wrong, with one sentence that says what and where.");
        Section("CAUTIONS");
        Prose("Never look along the dish or at the sun, with or without glass; a shiny dish that points at the sun has a focus that burns. Keep away from power lines, and go in when there is thunder. Mind the ground in the dark. Keep earphones soft enough to hear what comes. Local rules and licensed practice come first.");
    }

    /// <summary>Paragraphs; lines that begin with blanks stand as they are.</summary>
    private void Prose(string text)
    {
        bool asIs = false;
        bool begun = false;
        foreach (string line in text.ReplaceLineEndings("\n").Split('\n'))
        {
            bool example = line.StartsWith(' ');
            if (example != asIs)
            {
                if (example)
                {
                    Line(".PP");
                }

                Line(example ? ".nf" : ".fi");
                asIs = example;
            }

            if (line.Length == 0)
            {
                begun = false;
                continue;
            }

            if (!example && !begun)
            {
                Line(".PP");
                begun = true;
            }

            Line(Safe(Escaped(line)));
        }

        if (asIs)
        {
            Line(".fi");
        }
    }

    private static string Name(Argument argument) => argument.HelpName ?? argument.Name;

    private void Section(string title) => Line($".SH {Quoted(title)}");

    /// <summary>A paragraph begins by itself under a heading.</summary>
    private void Line(string line)
    {
        bool again = _headed && string.Equals(line, ".PP", StringComparison.Ordinal);
        _headed = line.StartsWith(".SH", StringComparison.Ordinal) || line.StartsWith(".SS", StringComparison.Ordinal) || again;
        if (!again)
        {
            _page.Append(line).Append('\n');
        }
    }

    private static string Quoted(string text) => $"\"{Escaped(text).Replace("\"", "\\(dq", StringComparison.Ordinal)}\"";

    /// <summary>A backslash and a hyphen mean themselves; what is no seven-bit character is named by its number.</summary>
    private static string Escaped(string text)
    {
        StringBuilder escaped = new(text.Length);
        foreach (Rune rune in text.EnumerateRunes())
        {
            _ = rune.Value switch
            {
                '\\' => escaped.Append("\\e"),
                '-' => escaped.Append("\\-"),
                '~' => escaped.Append("\\(ti"),
                '^' => escaped.Append("\\(ha"),
                '\'' => escaped.Append("\\(aq"),
                '`' => escaped.Append("\\(ga"),
                > 126 => escaped.Append(CultureInfo.InvariantCulture, $"\\[u{rune.Value:X4}]"),
                _ => escaped.Append(rune.ToString()),
            };
        }

        return escaped.ToString();
    }

    /// <summary>A point or an apostrophe at the beginning of a line is no request.</summary>
    private static string Safe(string line) => line.StartsWith('.') || line.StartsWith('\'') ? "\\&" + line : line;
}
