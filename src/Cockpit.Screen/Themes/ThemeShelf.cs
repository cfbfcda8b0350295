using System.Collections.Immutable;

namespace Cockpit.Screen.Themes;

/// <summary>The themes at hand.</summary>
/// <param name="Themes">At least one; mono among them.</param>
/// <param name="Trouble">What was wrong with the folder or a file, one sentence; null when all is well.</param>
public sealed record ThemeShelf(ImmutableArray<Theme> Themes, string? Trouble)
{
    /// <summary>Name of the theme without colours.</summary>
    public const string Mono = "mono";

    private static readonly ImmutableArray<string> Order = ["dusk", "night", "day", Mono];

    /// <summary>Reads every *.json of a folder. Where that fails, the themes built into the program stand in.</summary>
    /// <param name="folder">The folder.</param>
    public static ThemeShelf Load(string folder)
    {
        Dictionary<string, Theme> found = BuiltInThemes.All.ToDictionary(theme => theme.Name, StringComparer.Ordinal);
        string? trouble = null;
        try
        {
            foreach (string file in Directory.EnumerateFiles(folder, "*.json").Order(StringComparer.Ordinal))
            {
                (Theme? theme, string? wrong) = new FileInfo(file).Length > ThemeFile.LargestBytes
                    ? (null, $"{Path.GetFileName(file)}: larger than 64 KiB.")
                    : ThemeFile.Read(File.ReadAllText(file), Path.GetFileName(file));
                if (theme is not null)
                {
                    found[theme.Name] = theme;
                }

                trouble ??= wrong is null ? null : $"Theme not used: {wrong}";
            }
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            trouble = "Themes folder not readable, built-in themes are used.";
        }

        IEnumerable<Theme> ordered = found.Values
            .OrderBy(theme => Order.IndexOf(theme.Name) is var at and >= 0 ? at : Order.Length)
            .ThenBy(theme => theme.Name, StringComparer.Ordinal);
        return new ThemeShelf([.. ordered], trouble);
    }

    /// <summary>The theme of a name; null when there is none.</summary>
    public Theme? Find(string name) => Themes.FirstOrDefault(theme => string.Equals(theme.Name, name, StringComparison.OrdinalIgnoreCase));
}
