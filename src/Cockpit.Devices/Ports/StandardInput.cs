using System.Runtime.InteropServices;

namespace Cockpit.Devices.Ports;

/// <summary>The standard input of the process.</summary>
public static partial class StandardInput
{
    /// <summary>Puts a pipe in its place into which nobody writes, so that whoever polls a terminal that is gone waits instead of spinning.</summary>
    /// <returns>False where the system has no such call, or it failed; then nothing changed.</returns>
    public static bool ReplaceBySilence()
    {
        if (OperatingSystem.IsWindows())
        {
            return false;
        }

        // The writing end stays open as long as the process lives: closed, the pipe would be at its end, and spin again.
        Span<int> ends = stackalloc int[2];
        return Pipe(ends) == 0 && Duplicate(ends[0], 0) >= 0;
    }

    /// <summary>Whether the terminal that the process was started from is no longer there: its window was closed, or its line was cut.</summary>
    /// <remarks>Never on Windows, where a process ends with its window.</remarks>
    public static bool TerminalIsGone()
    {
        if (OperatingSystem.IsWindows())
        {
            return false;
        }

        try
        {
            using FileStream terminal = new("/dev/tty", FileMode.Open, FileAccess.Write, FileShare.ReadWrite, bufferSize: 0);
            return false;
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException or NotSupportedException)
        {
            return true;
        }
    }

    [LibraryImport("libc", EntryPoint = "pipe")]
    private static partial int Pipe(Span<int> ends);

    [LibraryImport("libc", EntryPoint = "dup2")]
    private static partial int Duplicate(int from, int to);
}
