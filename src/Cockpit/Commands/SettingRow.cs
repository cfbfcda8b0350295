using System.Collections.Immutable;
using Cockpit.Core.Geo;
using Cockpit.Settings;
using Cockpit.Settings.Stored;

namespace Cockpit.Commands;

/// <summary>One thing that can be set, what holds, and where that comes from.</summary>
/// <param name="Name">Table and key.</param>
/// <param name="Value">What holds; empty where nothing does.</param>
/// <param name="From">The option, the file's line, "usual", or "not set".</param>
public sealed record SettingRow(string Name, string Value, string From)
{
    private const string Usual = "usual";
    private const string NotSet = "not set";

    /// <summary>What holds where nobody says anything else.</summary>
    private static readonly ImmutableDictionary<string, string> UsualTexts = new Dictionary<string, string>(StringComparer.Ordinal)
    {
        ["--dish"] = FormattableString.Invariant($"{CockpitSettings.Usual.Link.Dish.DiameterMetres}"),
        ["--noise-figure"] = FormattableString.Invariant($"{CockpitSettings.Usual.Link.Dish.NoiseFigure.Value}"),
        ["--mount"] = "pan-tilt",
        ["--over-the-top"] = "false",
        ["--sun"] = "skip",
        ["--theme"] = CockpitSettings.Usual.Theme,
        ["--drawing"] = "auto",
        ["--north"] = "true",
        ["--sound"] = "auto",
        ["--voice"] = "tones",
        ["--volume"] = "0",
        ["--skill"] = "learnt, else novice",
        ["--sessions"] = CockpitSettings.Usual.SessionsFolder,
        ["--half-angle"] = FormattableString.Invariant($"{ScanLine.UsualHalfAngle.Degrees:0.#}"),
    }.ToImmutableDictionary(StringComparer.Ordinal);

    /// <summary>The options that the settings can stand for.</summary>
    public static IEnumerable<string> OptionNames =>
        SettingSchema.Root.Tables.Where(IsShown).SelectMany(table => table.Keys).Select(key => key.Option).OfType<string>().Prepend("--station").Distinct(StringComparer.Ordinal);

    /// <summary>Everything that can be set.</summary>
    /// <param name="settings">The file; null without one.</param>
    /// <param name="given">Options that were given, by name.</param>
    public static IEnumerable<SettingRow> All(StoredSettings? settings, IReadOnlyDictionary<string, string> given)
    {
        ArgumentNullException.ThrowIfNull(given);
        ImmutableArray<StoredOption> stored = settings is null ? [] : StoredOption.Of(settings, null);
        yield return Of("station", "--station", given, stored, settings);
        foreach (SettingTable table in SettingSchema.Root.Tables.Where(IsShown))
        {
            StoredTable? there = table.Name switch
            {
                "places" => settings?.Place,
                "dishes" => settings?.Dish,
                _ => settings?.Root.One(table.Name),
            };
            foreach (SettingKey key in table.Keys.Where(key => !key.Name.StartsWith("latitude", StringComparison.Ordinal) && !key.Name.StartsWith("longitude", StringComparison.Ordinal) && !key.Name.StartsWith("altitude", StringComparison.Ordinal)))
            {
                string name = $"{table.Name}.{key.Name}";
                yield return key.Option is { } option
                    ? Of(name, option, given, stored, settings)
                    : there?.Values.GetValueOrDefault(key.Name) is { } value
                        ? new SettingRow(name, value.Text, Where(settings, value.Line))
                        : new SettingRow(name, "", NotSet);
            }
        }

        foreach (StoredTable favourite in settings?.Favourites ?? [])
        {
            string links = string.Join(", ", favourite.All("downlinks").Select(link => $"{link.Text("frequency_mhz")} MHz {link.Text("service")}".TrimEnd()));
            yield return new SettingRow("favourite", $"{favourite.Text("satellite")} {links}".TrimEnd(), Where(settings, favourite.Line));
        }
    }

    private static bool IsShown(SettingTable table) => table.Name is not "favourites";

    private static SettingRow Of(string name, string option, IReadOnlyDictionary<string, string> given, ImmutableArray<StoredOption> stored, StoredSettings? settings)
    {
        if (given.TryGetValue(option, out string? text))
        {
            return new SettingRow(name, text, $"option {option}");
        }

        if (stored.FirstOrDefault(one => string.Equals(one.Option, option, StringComparison.Ordinal)) is { } found)
        {
            return new SettingRow(name, found.Text ?? "true", Where(settings, found.Line));
        }

        return UsualTexts.TryGetValue(option, out string? usual) ? new SettingRow(name, usual, Usual) : new SettingRow(name, "", NotSet);
    }

    private static string Where(StoredSettings? settings, int line) => FormattableString.Invariant($"{Path.GetFileName(settings?.File)}:{line}");
}
