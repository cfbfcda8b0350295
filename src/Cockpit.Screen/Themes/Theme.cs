using System.Collections.Immutable;

namespace Cockpit.Screen.Themes;

/// <summary>A colour, red green blue, 0..255 each, as in the sRGB standard (IEC 61966-2-1).</summary>
/// <param name="Red">Red.</param>
/// <param name="Green">Green.</param>
/// <param name="Blue">Blue.</param>
public readonly record struct Rgb(byte Red, byte Green, byte Blue);

/// <summary>How a role is written.</summary>
/// <param name="Text">Colour of the text; null = the terminal's own.</param>
/// <param name="Ground">Colour behind it; null = the terminal's own.</param>
/// <param name="Text16">Colour of the text where the terminal has 16 colours; null = the nearest.</param>
/// <param name="Ground16">Colour behind it where the terminal has 16 colours; null = the nearest.</param>
/// <param name="Bold">Bold.</param>
/// <param name="Reverse">Text and ground exchanged.</param>
/// <param name="Underline">Underlined.</param>
/// <param name="Faint">Faint, where the terminal can.</param>
public sealed record Ink(
    Rgb? Text = null,
    Rgb? Ground = null,
    Rgb? Text16 = null,
    Rgb? Ground16 = null,
    bool Bold = false,
    bool Reverse = false,
    bool Underline = false,
    bool Faint = false);

/// <summary>Inks for all roles.</summary>
/// <param name="Name">Its name, one word.</param>
/// <param name="Says">What it is for, one line.</param>
/// <param name="Inks">An ink for each role, indexed by the role's number.</param>
public sealed record Theme(string Name, string Says, ImmutableArray<Ink> Inks)
{
    /// <summary>The ink of a role.</summary>
    public Ink this[Role role] => Inks[(int)role];
}
