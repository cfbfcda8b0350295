using System.Collections.Immutable;

namespace Cockpit.Screen.Themes;

/// <summary>A colour, red green blue, 0..255 each, as in the sRGB standard (IEC 61966-2-1).</summary>
/// <param name="Red">Red.</param>
/// <param name="Green">Green.</param>
/// <param name="Blue">Blue.</param>
public readonly record struct Rgb(byte Red, byte Green, byte Blue);

/// <summary>The sixteen colours that every colour terminal has, in the order of their codes (ECMA-48 SGR 30-37, and the bright ones 90-97).</summary>
public enum Sixteen
{
    /// <summary>SGR 30.</summary>
    Black = 0,

    /// <summary>SGR 31.</summary>
    Red = 1,

    /// <summary>SGR 32.</summary>
    Green = 2,

    /// <summary>SGR 33; brown on many terminals.</summary>
    Yellow = 3,

    /// <summary>SGR 34.</summary>
    Blue = 4,

    /// <summary>SGR 35.</summary>
    Magenta = 5,

    /// <summary>SGR 36.</summary>
    Cyan = 6,

    /// <summary>SGR 37.</summary>
    Grey = 7,

    /// <summary>SGR 90.</summary>
    DarkGrey = 8,

    /// <summary>SGR 91.</summary>
    BrightRed = 9,

    /// <summary>SGR 92.</summary>
    BrightGreen = 10,

    /// <summary>SGR 93.</summary>
    BrightYellow = 11,

    /// <summary>SGR 94.</summary>
    BrightBlue = 12,

    /// <summary>SGR 95.</summary>
    BrightMagenta = 13,

    /// <summary>SGR 96.</summary>
    BrightCyan = 14,

    /// <summary>SGR 97.</summary>
    White = 15,
}

/// <summary>How a role is written.</summary>
/// <param name="Text">Colour of the text; null = the terminal's own.</param>
/// <param name="Ground">Colour behind it; null = the terminal's own.</param>
/// <param name="Text16">Colour of the text where the terminal has 16 colours; null = the nearest.</param>
/// <param name="Ground16">Colour behind it where the terminal has 16 colours; null = the nearest.</param>
/// <param name="Bold">Bold.</param>
/// <param name="Reverse">Text and ground exchanged.</param>
/// <param name="Underline">Underlined.</param>
/// <param name="Faint">Faint, where the terminal can.</param>
public sealed record RoleStyle(
    Rgb? Text = null,
    Rgb? Ground = null,
    Sixteen? Text16 = null,
    Sixteen? Ground16 = null,
    bool Bold = false,
    bool Reverse = false,
    bool Underline = false,
    bool Faint = false)
{
    /// <summary>Black on white, whatever the terminal's own colours are.</summary>
    public static RoleStyle BlackOnWhite { get; } = new(new Rgb(0, 0, 0), new Rgb(255, 255, 255), Sixteen.Black, Sixteen.White);
}

/// <summary>Styles for all roles.</summary>
/// <param name="Name">Its name, one word.</param>
/// <param name="Says">What it is for, one line.</param>
/// <param name="Styles">A style for each role, indexed by the role's number.</param>
public sealed record Theme(string Name, string Says, ImmutableArray<RoleStyle> Styles)
{
    /// <summary>The style of a role.</summary>
    public RoleStyle this[Role role] => Styles[(int)role];
}
