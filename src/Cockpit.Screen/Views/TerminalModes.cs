using System.Runtime.InteropServices;

namespace Cockpit.Screen.Views;

/// <summary>The modes of the terminal line (POSIX termios) as the screen has set them, to be set again after a stop.</summary>
/// <remarks>When a process goes on after a stop, the runtime sets modes of its own: keys would wait for Enter, and Ctrl-C would be a signal.</remarks>
internal static partial class TerminalModes
{
    private const int Input = 0;
    private const int Now = 0;

    /// <summary>More than any system's struct termios has (60 bytes on Linux, 72 on macOS); what stands in it is never looked at.</summary>
    private const int Room = 256;

    /// <summary>The modes of now; null where input is no terminal or the system has no such call.</summary>
    public static byte[]? Read()
    {
        byte[] modes = new byte[Room];
        return !OperatingSystem.IsWindows() && GetAttributes(Input, modes) == 0 ? modes : null;
    }

    /// <summary>Sets modes that were read before.</summary>
    public static void Set(byte[] modes)
    {
        if (!OperatingSystem.IsWindows())
        {
            _ = SetAttributes(Input, Now, modes);
        }
    }

    [LibraryImport("libc", EntryPoint = "tcgetattr")]
    private static partial int GetAttributes(int descriptor, Span<byte> modes);

    [LibraryImport("libc", EntryPoint = "tcsetattr")]
    private static partial int SetAttributes(int descriptor, int when, Span<byte> modes);
}
