using System.Reflection;

namespace Cockpit.Wiring;

/// <summary>The version of this program.</summary>
public static class ProgramVersion
{
    /// <summary>For journals and --version.</summary>
    public static string Text { get; } =
        typeof(ProgramVersion).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()?.InformationalVersion.Split('+')[0] ?? "0";
}
