using System.Collections.Immutable;
using Cockpit.Screen.Themes;
using Terminal.Gui.Drawing;
using Attribute = Terminal.Gui.Drawing.Attribute;

namespace Cockpit.Screen.Views;

/// <summary>Turns a theme into the attributes of the terminal library.</summary>
internal static class Inks
{
    /// <summary>An attribute for each role, indexed by the role's number.</summary>
    /// <param name="theme">The theme.</param>
    /// <param name="sixteen">The terminal has 16 colours only.</param>
    public static ImmutableArray<Attribute> Of(Theme theme, bool sixteen) => [.. theme.Inks.Select(ink => Of(ink, sixteen))];

    private static Attribute Of(Ink ink, bool sixteen)
    {
        TextStyle style = (ink.Bold ? TextStyle.Bold : TextStyle.None)
            | (ink.Reverse ? TextStyle.Reverse : TextStyle.None)
            | (ink.Underline ? TextStyle.Underline : TextStyle.None)
            | (ink.Faint ? TextStyle.Faint : TextStyle.None);
        return new Attribute(
            Of(sixteen ? ink.Text16 ?? ink.Text : ink.Text),
            Of(sixteen ? ink.Ground16 ?? ink.Ground : ink.Ground),
            style);
    }

    private static Color Of(Rgb? rgb) => rgb is { } c ? new Color(c.Red, c.Green, c.Blue) : Color.None;
}
