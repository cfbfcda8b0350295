using System.Diagnostics;

namespace Cockpit.EndToEnd.Tests.Program;

/// <summary>The program that these tests start: the one built beside them, or the one that the variable COCKPIT_PROGRAM names.</summary>
/// <remarks>A path that ends in .dll is run by the runtime that runs the tests, any other by itself: so the tests can be run against a native build.</remarks>
internal static class ProgramUnderTest
{
    private static readonly string Chosen = Environment.GetEnvironmentVariable("COCKPIT_PROGRAM") is { Length: > 0 } path
        ? Path.GetFullPath(path)
        : Path.Combine(AppContext.BaseDirectory, "cockpit.dll");

    private static readonly bool NeedsRuntime = Chosen.EndsWith(".dll", StringComparison.OrdinalIgnoreCase);

    /// <summary>The file that must be there.</summary>
    public static string File => Chosen;

    /// <summary>What to start, and the words that come before its own.</summary>
    public static string[] Words => NeedsRuntime ? [Environment.GetEnvironmentVariable("DOTNET_HOST_PATH") ?? "dotnet", Chosen] : [Chosen];

    /// <summary>How a process of it starts, its input and outputs in the hands of the test.</summary>
    public static ProcessStartInfo Start(params string[] words) => new(Words[0], [.. Words[1..], .. words])
    {
        UseShellExecute = false,
        RedirectStandardInput = true,
        RedirectStandardOutput = true,
        RedirectStandardError = true,
    };
}
