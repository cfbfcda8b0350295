using System.Collections.Immutable;
using Cockpit.Screen.Themes;
using Terminal.Gui.Drawing;
using Attribute = Terminal.Gui.Drawing.Attribute;

namespace Cockpit.Screen.Views;

/// <summary>Turns a theme into the attributes of the terminal library.</summary>
internal static class ThemeAttributes
{
    /// <summary>The library's names in the order of the codes.</summary>
    private static readonly ColorName16[] Names =
    [
        ColorName16.Black, ColorName16.Red, ColorName16.Green, ColorName16.Yellow, ColorName16.Blue, ColorName16.Magenta, ColorName16.Cyan, ColorName16.Gray,
        ColorName16.DarkGray, ColorName16.BrightRed, ColorName16.BrightGreen, ColorName16.BrightYellow, ColorName16.BrightBlue, ColorName16.BrightMagenta, ColorName16.BrightCyan, ColorName16.White,
    ];

    /// <summary>An attribute for each role, indexed by the role's number.</summary>
    /// <param name="theme">The theme.</param>
    /// <param name="sixteen">The terminal has 16 colours only.</param>
    public static ImmutableArray<Attribute> Of(Theme theme, bool sixteen) =>
        [.. theme.Styles.Select((style, role) => Of((Role)role == Role.Code ? RoleStyle.BlackOnWhite : style, sixteen))];

    private static Attribute Of(RoleStyle role, bool sixteen)
    {
        // On the Linux console and its like bold makes a colour bright, and bright black is grey: hard to read on an orange ground.
        bool bold = role.Bold && !(sixteen && role.Text16 is Sixteen.Black);
        TextStyle style = (bold ? TextStyle.Bold : TextStyle.None)
            | (role.Reverse ? TextStyle.Reverse : TextStyle.None)
            | (role.Underline ? TextStyle.Underline : TextStyle.None)
            | (role.Faint ? TextStyle.Faint : TextStyle.None);
        return new Attribute(
            sixteen && role.Text16 is { } text ? new Color(Names[(int)text]) : Of(role.Text),
            sixteen && role.Ground16 is { } ground ? new Color(Names[(int)ground]) : Of(role.Ground),
            style);
    }

    /// <summary>The same with text and ground exchanged; where the terminal's own are used, it has to do it.</summary>
    /// <param name="style">An attribute.</param>
    public static Attribute Exchanged(Attribute style) => style.Foreground == Color.None || style.Background == Color.None
        ? new Attribute(style.Foreground, style.Background, style.Style ^ TextStyle.Reverse)
        : new Attribute(style.Background, style.Foreground, style.Style);

    private static Color Of(Rgb? rgb) => rgb is { } c ? new Color(c.Red, c.Green, c.Blue) : Color.None;
}
