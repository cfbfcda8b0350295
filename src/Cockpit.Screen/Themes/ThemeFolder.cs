using System.Collections.Immutable;
using System.Text;

namespace Cockpit.Screen.Themes;

/// <summary>Reads the files of a themes folder, whatever they are: the screen does not wait for a pipe nor swallow a device.</summary>
internal sealed class ThemeFolder
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(1);

    private readonly Lock _gate = new();
    private readonly string _folder;
    private readonly List<Theme> _themes = [];
    private string? _reading;
    private string? _trouble;

    private ThemeFolder(string folder) => _folder = folder;

    /// <summary>Reads every *.json of a folder, in the order of their names.</summary>
    /// <returns>The good themes, and the first thing that was wrong, one sentence.</returns>
    public static (ImmutableArray<Theme> Themes, string? Trouble) Read(string folder)
    {
        ThemeFolder it = new(folder);

        // To open a pipe waits for its writer, perhaps for ever; a background thread does not hold up the end of the program.
        Thread reader = new(it.ReadFiles) { IsBackground = true, Name = "themes" };
        reader.Start();
        bool ended = reader.Join(Patience);
        lock (it._gate)
        {
            string? stuck = ended ? null : $"Theme not used: {it._reading ?? "the folder"} does not answer; is it a file?";
            return ([.. it._themes], it._trouble ?? stuck);
        }
    }

    private void ReadFiles()
    {
        try
        {
            foreach (string file in Directory.EnumerateFiles(_folder, "*.json").Order(StringComparer.Ordinal))
            {
                string name = Path.GetFileName(file);
                lock (_gate)
                {
                    _reading = name;
                }

                (Theme? theme, string? wrong) = ReadFile(file, name);
                lock (_gate)
                {
                    if (theme is not null)
                    {
                        _themes.Add(theme);
                    }

                    _trouble ??= wrong is null ? null : $"Theme not used: {wrong}";
                }
            }
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            lock (_gate)
            {
                _trouble = "Themes folder not readable, built-in themes are used.";
            }
        }
    }

    /// <summary>Takes no more than a theme may have, whatever length the system gives: a device has none and never ends.</summary>
    private static (Theme? Theme, string? Trouble) ReadFile(string file, string name)
    {
        byte[] bytes = new byte[ThemeFile.LargestBytes + 1];
        using FileStream stream = new(file, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete);
        int count = stream.ReadAtLeast(bytes, bytes.Length, throwOnEndOfStream: false);
        if (count > ThemeFile.LargestBytes)
        {
            return (null, $"{name}: larger than 64 KiB.");
        }

        ReadOnlySpan<byte> text = bytes.AsSpan(0, count);
        ReadOnlySpan<byte> mark = Encoding.UTF8.Preamble;
        return ThemeFile.Read(Encoding.UTF8.GetString(text.StartsWith(mark) ? text[mark.Length..] : text), name);
    }
}
