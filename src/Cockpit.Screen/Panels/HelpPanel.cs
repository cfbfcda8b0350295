using Cockpit.Screen.Keys;
using Cockpit.Screen.Themes;

namespace Cockpit.Screen.Panels;

/// <summary>What each key does and what the signs mean. It stands beside the aim, never over it.</summary>
internal static class HelpPanel
{
    private static readonly (string Sign, string Says, Role Role)[] Signs =
    [
        ("+", "dish", Role.Dish),
        ("O", "satellite", Role.Satellite),
        ("X", "where to aim next", Role.AimPoint),
        ("•∙·", "satellite in 10, 20, 30 s", Role.Track),
        ("A", "AOS; the arrow is LOS", Role.TrackPast),
    ];

    public static Block Of(bool replay, int width, int height)
    {
        Canvas canvas = new(width, height);
        List<(string Left, string Right, Role Role)> lines = [.. KeyTable.For(replay).Select(entry => (entry.Shown, entry.Help, Role.Key))];
        canvas.Text(0, 0, "KEYS (H closes)", Role.Strong);
        int columnWidth = width / 2;
        int rows = height - 1;
        bool twoColumns = lines.Count > rows;
        for (int i = 0; i < lines.Count; i++)
        {
            int column = twoColumns ? i / rows * columnWidth : 0;
            int row = 1 + (twoColumns ? i % rows : i);
            int room = twoColumns ? columnWidth - 9 : width - 9;
            canvas.Text(column, row, lines[i].Left, lines[i].Role);
            canvas.Text(column + 8, row, Figures.Fit(lines[i].Right, room).TrimEnd(), Role.Plain);
        }

        int at = (twoColumns ? lines.Count - rows : lines.Count) + 2;
        int left = twoColumns ? columnWidth : 0;
        foreach ((string sign, string says, Role role) in Signs.TakeWhile(_ => at < height))
        {
            canvas.Text(left, at, sign, role);
            canvas.Text(left + 8, at, says, Role.Dim);
            at++;
        }

        return canvas.ToBlock();
    }
}
