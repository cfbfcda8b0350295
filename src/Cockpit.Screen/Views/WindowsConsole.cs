using System.Runtime.InteropServices;

namespace Cockpit.Screen.Views;

/// <summary>What the window says in which a program runs on Windows.</summary>
public static partial class WindowsConsole
{
    private const int LongestName = 256;

    /// <summary>Whether its letters have signs for plots: those of the classic console have no braille, and it takes none from another font (from memory); terminals do.</summary>
    /// <param name="windowClass">Class of the console's window; null = there is none, as where the output goes elsewhere.</param>
    /// <remarks>A terminal that stands behind a pseudo console has a window of the class PseudoConsoleWindow, which is never seen; wine's console is a classic one too.</remarks>
    public static bool HasPlots(string? windowClass) => windowClass is not ("ConsoleWindowClass" or "WineConsoleClass");

    /// <summary>Class of the window of this process's console; null where there is none, or the results go elsewhere.</summary>
    public static string? WindowClass()
    {
        if (!OperatingSystem.IsWindows() || Console.IsOutputRedirected || ConsoleWindow() is not (not 0 and nint window))
        {
            return null;
        }

        Span<ushort> name = stackalloc ushort[LongestName];
        int length = ClassName(window, name, name.Length);
        return length > 0 ? new string(MemoryMarshal.Cast<ushort, char>(name[..length])) : null;
    }

    [LibraryImport("kernel32.dll", EntryPoint = "GetConsoleWindow")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.System32)]
    private static partial nint ConsoleWindow();

    [LibraryImport("user32.dll", EntryPoint = "GetClassNameW")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.System32)]
    private static partial int ClassName(nint window, Span<ushort> name, int length);
}
