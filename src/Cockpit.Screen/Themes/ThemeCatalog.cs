using System.Collections.Immutable;

namespace Cockpit.Screen.Themes;

/// <summary>The themes at hand.</summary>
/// <param name="Themes">At least one; mono among them.</param>
/// <param name="Trouble">What was wrong with the folder or a file, one sentence; null when all is well.</param>
public sealed record ThemeCatalog(ImmutableArray<Theme> Themes, string? Trouble)
{
    /// <summary>Name of the theme without colours.</summary>
    public const string Mono = "mono";

    private static readonly ImmutableArray<string> Order = ["dusk", "night", "day", Mono];

    /// <summary>Reads every *.json of a folder. Where that fails, the themes built into the program stand in.</summary>
    /// <param name="folder">The folder.</param>
    public static ThemeCatalog Load(string folder)
    {
        Dictionary<string, Theme> found = BuiltInThemes.All.ToDictionary(theme => theme.Name, StringComparer.Ordinal);
        (ImmutableArray<Theme> read, string? trouble) = ThemeFolder.Read(folder);
        foreach (Theme theme in read)
        {
            found[theme.Name] = theme;
        }

        IEnumerable<Theme> ordered = found.Values
            .OrderBy(theme => Order.IndexOf(theme.Name) is var at and >= 0 ? at : Order.Length)
            .ThenBy(theme => theme.Name, StringComparer.Ordinal);
        return new ThemeCatalog([.. ordered], trouble);
    }

    /// <summary>The theme of a name; null when there is none.</summary>
    public Theme? Find(string name) => Themes.FirstOrDefault(theme => string.Equals(theme.Name, name, StringComparison.OrdinalIgnoreCase));
}
