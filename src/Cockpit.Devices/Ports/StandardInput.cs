using System.Runtime.InteropServices;

namespace Cockpit.Devices.Ports;

/// <summary>The standard input of the process.</summary>
public static partial class StandardInput
{
    private const int ReadOnly = 0;

    /// <summary>Puts the null device in its place, so that nobody polls a terminal that is gone for ever.</summary>
    /// <returns>False where the system has no such call, or it failed; then nothing changed.</returns>
    public static bool ReplaceByNothing()
    {
        if (OperatingSystem.IsWindows())
        {
            return false;
        }

        int nothing = Open("/dev/null", ReadOnly);
        return nothing >= 0 && Duplicate(nothing, 0) >= 0;
    }

    [LibraryImport("libc", EntryPoint = "open", StringMarshalling = StringMarshalling.Utf8)]
    private static partial int Open(string path, int flags);

    [LibraryImport("libc", EntryPoint = "dup2")]
    private static partial int Duplicate(int from, int to);
}
