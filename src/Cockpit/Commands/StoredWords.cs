using System.Collections.Immutable;
using System.CommandLine;
using System.CommandLine.Parsing;
using Cockpit.Core.Formats;
using Cockpit.Settings.Stored;
using ParseError = Cockpit.Core.Formats.ParseError;

namespace Cockpit.Commands;

/// <summary>Adds to a command line what the settings say and the line does not.</summary>
public static class StoredWords
{
    /// <summary>The commands that know the settings. A filter (guide), a simulation or a check says the same on every computer.</summary>
    private static readonly ImmutableHashSet<string> Commands =
        ImmutableHashSet.Create(StringComparer.Ordinal, "live", "replay", "review", "sessions", "progress", "passes", "tonight", "rehearse", "look", "bearing", "link", "elements", RootName);

    private const string RootName = "";

    /// <summary>Of these, those that take the favourites for their satellites.</summary>
    private static readonly ImmutableHashSet<string> Many = ImmutableHashSet.Create(StringComparer.Ordinal, "passes", "tonight", Rehearse);

    /// <summary>There --skill says who steers, not whose hand the guidance reckons with.</summary>
    private const string Rehearse = "rehearse";

    /// <summary>An option of the line that takes the place of one of the settings.</summary>
    private static readonly ImmutableArray<(string Given, string Without)> Instead =
    [
        ("--body", "--elements"), ("--teme", "--station"), ("--ground", "--station"), ("--plain", "--theme"), ("--plain", "--drawing"), ("--all", "--satellite"),
        ("--frequency", "--downlink"), ("--service", "--downlink"), ("--satellite", "--favourite"), ("--phone", "--pointing"), ("--pointing", "--phone"),
    ];

    /// <summary>Settings, where there are any.</summary>
    /// <param name="Path">Their file; null where none is meant.</param>
    /// <param name="Settings">What stands in it; null where there is no such file.</param>
    /// <param name="Trouble">Why the usual file could not be read; null where it could.</param>
    public sealed record Found(string? Path, StoredSettings? Settings, ParseError? Trouble);

    /// <summary>The settings that a command line means.</summary>
    /// <param name="parsed">The line; one that names a file means that one and no other.</param>
    /// <param name="usual">The usual file; null = without.</param>
    /// <returns>One sentence where a file that was named is not there.</returns>
    public static Parsed<Found> Load(ParseResult parsed, string? usual)
    {
        ArgumentNullException.ThrowIfNull(parsed);
        string? named = parsed.GetValue(CommandRoot.SettingsOption);
        if ((named ?? usual) is not { } path)
        {
            return new Found(null, null, null);
        }

        (StoredSettings? settings, ParseError? trouble) = SettingsFile.Load(path);
        return named is not null && settings is null && !IsOwn(parsed)
            ? trouble ?? new ParseError(named, 0, 0, "there is no such file of settings; cockpit settings new writes one")
            : new Found(path, settings, trouble);
    }

    /// <summary>What has to be said of settings that are not all good; null where there is nothing, or where the command says it itself.</summary>
    public static string? Caution(ParseResult parsed, StoredSettings settings)
    {
        ArgumentNullException.ThrowIfNull(parsed);
        ArgumentNullException.ThrowIfNull(settings);
        string[] cautions =
        [
            .. settings.Caution is { } whole ? [whole] : Array.Empty<string>(),
            .. settings.Mistakes is [var only] ? [$"{only} (passed over)"]
                : settings.Mistakes is [var first, ..] ? [FormattableString.Invariant($"{first}; and {settings.Mistakes.Length - 1} more mistakes, all passed over: see cockpit settings check")]
                : Array.Empty<string>(),
        ];
        return cautions.Length == 0 || !Matters(parsed) ? null : string.Join(Environment.NewLine, cautions);
    }

    /// <summary>Whether the command of a line takes anything from the settings.</summary>
    public static bool Matters(ParseResult parsed)
    {
        ArgumentNullException.ThrowIfNull(parsed);
        Command command = parsed.CommandResult.Command;
        return Commands.Contains(command is RootCommand ? RootName : command.Name);
    }

    private static bool IsOwn(ParseResult parsed)
    {
        for (SymbolResult? at = parsed.CommandResult; at is CommandResult { Command: var command }; at = at.Parent)
        {
            if (string.Equals(command.Name, SettingsCommand.Name, StringComparison.Ordinal))
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>The whole line.</summary>
    /// <param name="args">The words that were given.</param>
    /// <param name="parsed">What was understood of them.</param>
    /// <param name="settings">The settings.</param>
    public static string[] AddTo(string[] args, ParseResult parsed, StoredSettings settings)
    {
        ArgumentNullException.ThrowIfNull(args);
        ArgumentNullException.ThrowIfNull(parsed);
        Command command = parsed.CommandResult.Command;
        if (!Matters(parsed))
        {
            return args;
        }

        Option[] known = [.. command.Options];
        string[] given = [.. known.Where(option => parsed.GetResult(option) is { Implicit: false }).Select(option => option.Name)];
        string? satellite = known.FirstOrDefault(option => string.Equals(option.Name, "--satellite", StringComparison.Ordinal)) is { } asked
            && parsed.GetResult(asked) is { Tokens: [var only, ..] } ? only.Value : null;
        bool takesDownlinks = known.Any(option => string.Equals(option.Name, "--downlink", StringComparison.Ordinal));
        string[] more =
        [
            .. StoredOption.Of(settings, takesDownlinks ? null : satellite)
                .Concat(Many.Contains(command.Name) ? StoredOption.Satellites(settings) : [])
                .Concat(known.Any(option => string.Equals(option.Name, LiveTargets.FavouriteName, StringComparison.Ordinal)) ? StoredOption.Satellites(settings, LiveTargets.FavouriteName) : [])
                .Concat(takesDownlinks ? StoredOption.Downlinks(settings) : [])
                .Where(stored => known.Any(option => string.Equals(option.Name, stored.Option, StringComparison.Ordinal)))
                .Where(stored => !(string.Equals(command.Name, Rehearse, StringComparison.Ordinal) && string.Equals(stored.Option, "--skill", StringComparison.Ordinal)))
                .Where(stored => !given.Contains(stored.Option, StringComparer.Ordinal))
                .Where(stored => !Instead.Any(pair => given.Contains(pair.Given, StringComparer.Ordinal) && string.Equals(pair.Without, stored.Option, StringComparison.Ordinal)))
                .Select(stored => stored.Word),
        ];

        // What stands behind "--" are no options any more.
        int end = Array.IndexOf(args, "--");
        return end < 0 ? [.. args, .. more] : [.. args[..end], .. more, .. args[end..]];
    }
}
