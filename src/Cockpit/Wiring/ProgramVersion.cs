using System.Globalization;
using System.Reflection;

namespace Cockpit.Wiring;

/// <summary>The version of this program.</summary>
public static class ProgramVersion
{
    /// <summary>For journals and --version.</summary>
    public static string Text { get; } =
        typeof(ProgramVersion).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()?.InformationalVersion.Split('+')[0] ?? "0";

    /// <summary>This very program: what another one worked out may be by other rules.</summary>
    public static string Identity { get; } = string.Create(
        CultureInfo.InvariantCulture, $"{Text} {File.GetLastWriteTimeUtc(Environment.ProcessPath ?? ""):yyyy-MM-dd'T'HH:mm:ss'Z'} {LibraryWritten:yyyy-MM-dd'T'HH:mm:ss'Z'}");

    // Where the program is not one file, the reviews are made by this part of it.
    private static DateTime LibraryWritten => File.GetLastWriteTimeUtc(Path.Combine(AppContext.BaseDirectory, "Cockpit.Session.dll"));
}
