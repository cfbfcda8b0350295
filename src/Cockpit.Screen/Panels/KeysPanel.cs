using System.Globalization;
using Cockpit.Screen.Keys;
using Cockpit.Screen.Themes;
using Cockpit.Session.State;

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

        // After the pass there is nothing left to say about it.
        bool over = input.Snapshot?.Sky?.Phase is PassPhase.Over;
        ILookup<bool, KeyEntry> entries = KeyTable.For(input.Replay, input.Steers)
            .Where(entry => entry.Hint.Length > 0 && !(over && entry.Action is OperatorAction or TurnAction))
            .OrderBy(entry => entry.Action is TurnAction ? 0 : 1)
            .ToLookup(IsAlwaysShown);
        int end = width - entries[true].Sum(entry => Width(entry) + 2);
        Hints(canvas, column, end, entries[false]);
        Hints(canvas, end + 1, width, entries[true]);
        return canvas.ToBlock();
    }

    /// <summary>The way to everything else, and the way out.</summary>
    private static bool IsAlwaysShown(KeyEntry entry) => entry.Action is QuitAction or ViewAction { Verb: ViewVerb.Help };

    private static int Width(KeyEntry entry) => entry.Shown.Length + 1 + entry.Hint.Length;

    private static void Hints(Canvas canvas, int column, int end, IEnumerable<KeyEntry> entries)
    {
        foreach (KeyEntry entry in entries)
        {
            if (column + Width(entry) > end)
            {
                break;
            }

            canvas.Text(column, 0, entry.Shown, Role.Key);
            canvas.Text(column + entry.Shown.Length + 1, 0, entry.Hint, Role.Dim);
            column += Width(entry) + 2;
        }
    }
}
