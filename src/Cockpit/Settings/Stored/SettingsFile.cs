using Cockpit.Core.Formats;

namespace Cockpit.Settings.Stored;

/// <summary>The file that the settings stand in.</summary>
public static class SettingsFile
{
    /// <summary>A longer one is none.</summary>
    public const int MostBytes = 256 * 1024;

    /// <summary>Where the system keeps such files: $XDG_CONFIG_HOME or ~/.config on Linux (XDG Base Directory Specification), Application Support on macOS, AppData on Windows.</summary>
    public static string UsualPath => Path.Combine(
        Environment.GetFolderPath(Environment.SpecialFolder.ApplicationData, Environment.SpecialFolderOption.DoNotVerify), "cockpit", "settings.toml");

    /// <summary>Where certificate and pairing of the phone are kept, for the owner only: beside the settings.</summary>
    public static string UsualPhoneFolder => Path.Combine(Path.GetDirectoryName(UsualPath) ?? ".", "phone");

    /// <summary>Reads it.</summary>
    /// <param name="path">The file.</param>
    /// <returns>Null where there is no such file; one sentence where it cannot be read at all.</returns>
    public static (StoredSettings? Settings, ParseError? Trouble) Load(string path)
    {
        try
        {
            FileInfo file = new(path);
            if (!file.Exists)
            {
                return (null, Directory.Exists(path) ? new ParseError(path, 0, 0, "the settings are a folder; give a file") : null);
            }

            if (file.Length > MostBytes)
            {
                return (null, new ParseError(path, 0, 0, FormattableString.Invariant($"the settings are larger than {MostBytes / 1024} KiB; that is not a file of settings")));
            }

            return (SettingsReader.Read(File.ReadAllText(path), path), null);
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            return (null, new ParseError(path, 0, 0, $"the settings cannot be read ({FileWords.Of(failure)})"));
        }
    }
}
