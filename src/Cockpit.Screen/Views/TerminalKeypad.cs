namespace Cockpit.Screen.Views;

/// <summary>Gives the shell its keypad back.</summary>
/// <remarks>The runtime switches cursor keys and keypad of a terminal to application mode (DECCKM, DECKPAM) as soon as a program prints, and never back.</remarks>
public static class TerminalKeypad
{
    private const string Normal = "\x1b[?1l\x1b>";

    /// <summary>The last thing that a program sends to its terminal; nothing where standard output is no terminal, or one that knows no modes.</summary>
    public static void Restore()
    {
        bool hasModes = Environment.GetEnvironmentVariable("TERM") is { Length: > 0 } kind && !string.Equals(kind, "dumb", StringComparison.Ordinal);
        if (OperatingSystem.IsWindows() || Console.IsOutputRedirected || !hasModes)
        {
            return;
        }

        try
        {
            Console.Out.Write(Normal);
            Console.Out.Flush();
        }
        catch (IOException)
        {
            // The terminal is gone, and its keypad with it.
        }
    }
}
