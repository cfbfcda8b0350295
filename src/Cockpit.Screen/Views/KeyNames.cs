using Terminal.Gui.Input;

namespace Cockpit.Screen.Views;

/// <summary>Names of keys as the key table writes them.</summary>
internal static class KeyNames
{
    /// <summary>The key that asks a program to stop for a while.</summary>
    public const string Suspend = "Ctrl-Z";

    /// <summary>The name of a key; null for keys that Cockpit never uses.</summary>
    public static string? Of(Key key)
    {
        if (key == Key.C.WithCtrl)
        {
            return "Ctrl-C";
        }

        if (key == Key.Z.WithCtrl)
        {
            return Suspend;
        }

        if (key.IsCtrl || key.IsAlt)
        {
            return null;
        }

        return Named(key.NoShift) is { } name ? (key.IsShift && IsArrow(name) ? Keys.KeyTable.Shift + name : name) : Printed(key);
    }

    private static bool IsArrow(string name) => name is "Left" or "Right" or "Up" or "Down";

    private static string? Named(Key key) => key switch
    {
        _ when key == Key.Space => "Space",
        _ when key == Key.Enter => "Enter",
        _ when key == Key.CursorLeft => "Left",
        _ when key == Key.CursorRight => "Right",
        _ when key == Key.CursorUp => "Up",
        _ when key == Key.CursorDown => "Down",
        _ when key == Key.PageUp => "PageUp",
        _ when key == Key.PageDown => "PageDown",
        _ when key == Key.Home => "Home",
        _ when key == Key.End => "End",
        _ => null,
    };

    private static string? Printed(Key key)
    {
        int rune = key.AsRune.Value;
        return rune is > ' ' and < 0x7F ? char.ToUpperInvariant((char)rune).ToString() : null;
    }
}
