using System.Text;

namespace Cockpit.Screen.Views;

/// <summary>What pages and plots in a terminal are drawn with.</summary>
public enum Drawing
{
    /// <summary>Whatever the terminal can show.</summary>
    Auto = 0,

    /// <summary>Block, box and braille signs.</summary>
    Unicode = 1,

    /// <summary>Seven-bit characters.</summary>
    Ascii = 2,
}

/// <summary>What a terminal can show, as far as its surroundings tell.</summary>
public static class DrawingChoice
{
    private static readonly string[] Locales = ["LC_ALL", "LC_CTYPE", "LANG"];

    /// <summary>Whether only seven-bit characters are to be used in this terminal.</summary>
    /// <param name="drawing">What was asked for.</param>
    public static bool IsSevenBit(this Drawing drawing) => drawing switch
    {
        Drawing.Auto => !ShowsPlots(Environment.GetEnvironmentVariable, Console.OutputEncoding, OperatingSystem.IsWindows(), WindowsConsole.WindowClass()),
        _ => drawing == Drawing.Ascii,
    };

    /// <summary>Whether the terminal takes UTF-8 at all, by its locale (POSIX, "Internationalization Variables"), on Windows by its code page.</summary>
    /// <param name="variable">Reads a variable of the environment.</param>
    /// <param name="encoding">Of the terminal.</param>
    /// <param name="isWindows">Whether this is Windows.</param>
    public static bool IsUtf8(Func<string, string?> variable, Encoding encoding, bool isWindows)
    {
        ArgumentNullException.ThrowIfNull(variable);
        ArgumentNullException.ThrowIfNull(encoding);
        string? locale = Locales.Select(variable).FirstOrDefault(text => !string.IsNullOrEmpty(text));
        return isWindows
            ? encoding.CodePage == Encoding.UTF8.CodePage
            : locale is not null && locale.Replace("-", "", StringComparison.Ordinal).Contains("utf8", StringComparison.OrdinalIgnoreCase);
    }

    /// <summary>Whether it has signs for plots too: neither the Linux console nor an old video terminal has.</summary>
    /// <param name="variable">Reads a variable of the environment.</param>
    /// <param name="encoding">Of the terminal.</param>
    /// <param name="isWindows">Whether this is Windows.</param>
    /// <param name="windowClass">Of the console's window, on Windows; see <see cref="WindowsConsole"/>.</param>
    public static bool ShowsPlots(Func<string, string?> variable, Encoding encoding, bool isWindows, string? windowClass = null) =>
        IsUtf8(variable, encoding, isWindows) && (isWindows ? WindowsConsole.HasPlots(windowClass) : !TerminalNames.HasNoPlots(variable("TERM")));
}
