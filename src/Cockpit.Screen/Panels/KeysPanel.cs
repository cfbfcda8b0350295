using System.Globalization;
using Cockpit.Screen.Keys;
using Cockpit.Screen.Themes;

namespace Cockpit.Screen.Panels;

/// <summary>The last line: what the keys do, or a sentence of the screen itself; in a replay first where the player is.</summary>
internal static class KeysPanel
{
    public static Block Of(PageInput input, int width)
    {
        Canvas canvas = new(width, 1);
        int column = 1;
        if (input.Notice is { } notice)
        {
            canvas.Text(0, 0, Figures.Fit($" » {notice}", width), Role.Caution);
            return canvas.ToBlock();
        }

        if (input.Player is { } player)
        {
            string state = string.Create(CultureInfo.InvariantCulture, $"{(player.Paused ? "‖" : "►")} {Figures.Span(player.Position)} of {Figures.Span(player.Length)}");
            canvas.Text(column, 0, state, Role.Strong);
            column += state.Length + 2;
        }

        foreach (KeyEntry entry in KeyTable.For(input.Replay).Where(entry => entry.Hint.Length > 0))
        {
            if (column + entry.Shown.Length + 1 + entry.Hint.Length > width)
            {
                break;
            }

            canvas.Text(column, 0, entry.Shown, Role.Key);
            column += entry.Shown.Length + 1;
            canvas.Text(column, 0, entry.Hint, Role.Dim);
            column += entry.Hint.Length + 2;
        }

        return canvas.ToBlock();
    }
}
