using System.Collections.Immutable;
using System.Reflection;

namespace Cockpit.Screen.Themes;

/// <summary>The themes inside the program: the files of themes/ as they were when it was built.</summary>
internal static class BuiltInThemes
{
    public static ImmutableArray<Theme> All { get; } = Load();

    private static ImmutableArray<Theme> Load()
    {
        Assembly assembly = typeof(BuiltInThemes).Assembly;
        var themes = ImmutableArray.CreateBuilder<Theme>();
        foreach (string name in assembly.GetManifestResourceNames().Where(name => name.EndsWith(".json", StringComparison.Ordinal)).Order(StringComparer.Ordinal))
        {
            using Stream stream = assembly.GetManifestResourceStream(name) ?? throw new InvalidOperationException($"{name} is not in the program.");
            using StreamReader reader = new(stream);
            (Theme? theme, string? trouble) = ThemeFile.Read(reader.ReadToEnd(), name);
            themes.Add(theme ?? throw new InvalidOperationException(trouble));
        }

        return themes.ToImmutable();
    }
}
