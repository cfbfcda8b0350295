namespace Cockpit.Screen.Views;

/// <summary>How many colours a terminal has, as far as its surroundings tell.</summary>
public static class ColourChoice
{
    /// <summary>What names of terminals with sixteen colours or eight begin or end with (terminfo(5), and its database).</summary>
    private static readonly string[] SixteenBegin = ["linux", "ansi", "cygwin", "pcansi", "eterm"];
    private static readonly string[] SixteenEnd = ["-16color", "-8color", "-color"];

    /// <summary>No colours: the variable NO_COLOR is set (no-color.org), or the terminal has none.</summary>
    /// <param name="variable">Reads a variable of the environment.</param>
    public static bool IsNone(Func<string, string?> variable)
    {
        ArgumentNullException.ThrowIfNull(variable);
        string terminal = variable("TERM") ?? "";
        return !string.IsNullOrEmpty(variable("NO_COLOR"))
            || TerminalNames.IsOfOneColour(terminal)
            || terminal.EndsWith("-m", StringComparison.Ordinal)
            || terminal.EndsWith("-mono", StringComparison.Ordinal);
    }

    /// <summary>Sixteen: the Linux console and plain ANSI terminals; Apple's terminal too, whose older versions take a colour of 24 bits for something else (from memory).</summary>
    /// <param name="variable">Reads a variable of the environment.</param>
    /// <remarks>
    /// GNU screen passes over colours of 24 bits (seen with 4.9), whatever the terminal around it says of itself in COLORTERM. tmux, which may
    /// have the same name, turns them into what the terminal around it has.
    /// </remarks>
    public static bool IsSixteen(Func<string, string?> variable)
    {
        ArgumentNullException.ThrowIfNull(variable);
        string terminal = variable("TERM") ?? "";
        bool tmux = !string.IsNullOrEmpty(variable("TMUX"));
        if (terminal.StartsWith("screen", StringComparison.Ordinal))
        {
            return !tmux;
        }

        bool told = variable("COLORTERM") is "truecolor" or "24bit";
        return !told
            && (Array.Exists(SixteenBegin, name => terminal.StartsWith(name, StringComparison.Ordinal))
                || Array.Exists(SixteenEnd, name => terminal.EndsWith(name, StringComparison.Ordinal))
                || string.Equals(variable("TERM_PROGRAM"), "Apple_Terminal", StringComparison.Ordinal));
    }
}
