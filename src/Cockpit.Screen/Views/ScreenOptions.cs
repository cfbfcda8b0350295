namespace Cockpit.Screen.Views;

/// <summary>How the screen is set up.</summary>
public sealed record ScreenOptions
{
    /// <summary>Name of the theme to start with: "dusk", "night", "day", "mono" or the name of a file in the themes folder.</summary>
    public string Theme { get; init; } = "dusk";

    /// <summary>Folder of the themes.</summary>
    public string ThemesFolder { get; init; } = Path.Combine(AppContext.BaseDirectory, "themes");

    /// <summary>The screen shows a replay: the keys of the player work, those of the operator do not.</summary>
    public bool Replay { get; init; }

    /// <summary>No colours.</summary>
    public bool NoColour { get; init; } = ColourChoice.IsNone(Environment.GetEnvironmentVariable);

    /// <summary>What the page is drawn with.</summary>
    public Drawing Drawing { get; init; } = Drawing.Auto;

    /// <summary>Frames a second at most.</summary>
    public int FramesPerSecond { get; init; } = 10;

    /// <summary>Where the one sentence goes when the screen failed; written after the terminal is restored.</summary>
    public TextWriter Complaints { get; init; } = Console.Error;

    /// <summary>Tells whether the terminal went away while the screen was open; then nobody waits for it.</summary>
    public Func<bool> TerminalIsGone { get; init; } = static () => false;

    /// <summary>The clock for notices and second presses; only spans of it are used.</summary>
    public TimeProvider Time { get; init; } = TimeProvider.System;
}
