namespace Cockpit.Screen.Views;

/// <summary>How many colours a terminal has, as far as its surroundings tell.</summary>
public static class ColourChoice
{
    /// <summary>Names of terminals with one colour; behind a dash m or mono says the same of any (terminfo(5), "Terminal names").</summary>
    private static readonly string[] OneColour = ["dumb", "vt52", "vt100", "vt102", "vt220", "vt320", "vt420"];

    /// <summary>No colours: the variable NO_COLOR is set (no-color.org), or the terminal has none.</summary>
    /// <param name="variable">Reads a variable of the environment.</param>
    public static bool IsNone(Func<string, string?> variable)
    {
        ArgumentNullException.ThrowIfNull(variable);
        string terminal = variable("TERM") ?? "";
        return !string.IsNullOrEmpty(variable("NO_COLOR"))
            || OneColour.Contains(terminal, StringComparer.Ordinal)
            || terminal.EndsWith("-m", StringComparison.Ordinal)
            || terminal.EndsWith("-mono", StringComparison.Ordinal);
    }

    /// <summary>Sixteen: the Linux console and plain ANSI terminals; Apple's terminal too, whose older versions take a colour of 24 bits for something else (from memory).</summary>
    /// <param name="variable">Reads a variable of the environment.</param>
    public static bool IsSixteen(Func<string, string?> variable)
    {
        ArgumentNullException.ThrowIfNull(variable);
        bool told = variable("COLORTERM") is "truecolor" or "24bit";
        return !told && (variable("TERM") is "linux" or "ansi" || string.Equals(variable("TERM_PROGRAM"), "Apple_Terminal", StringComparison.Ordinal));
    }
}
