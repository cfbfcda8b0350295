namespace Cockpit.Screen.Views;

/// <summary>What a terminal's name (the variable TERM) says about it.</summary>
internal static class TerminalNames
{
    private static readonly string[] OneColour = ["dumb", "vt52", "vt100", "vt102", "vt220", "vt320", "vt420"];

    /// <summary>Video terminals of one colour, which know no Unicode either; "dumb" knows nothing.</summary>
    /// <param name="terminal">The name.</param>
    public static bool IsOfOneColour(string? terminal) => OneColour.Contains(terminal, StringComparer.Ordinal);

    /// <summary>Terminals without signs for plots: the Linux console has 512 letters at most and braille is not among them (console_codes(4), setfont(8)).</summary>
    /// <param name="terminal">The name.</param>
    public static bool HasNoPlots(string? terminal) => string.Equals(terminal, "linux", StringComparison.Ordinal) || IsOfOneColour(terminal);
}
