using Cockpit.Screen.Keys;
using Cockpit.Screen.Themes;

namespace Cockpit.Screen.Panels;

/// <summary>What each key does and what the signs mean. It stands beside the aim, never over it.</summary>
internal static class HelpPanel
{
    private const int KeyWidth = 8;
    private const int ColumnWidth = 28;
    private const int RoomyColumnWidth = 36;

    private static readonly (string Sign, string Says, Role Role)[] Signs =
    [
        ("+", "dish", Role.Dish),
        ("O", "satellite", Role.Satellite),
        ("X", "aim here next", Role.AimPoint),
        ("•∙·", "in 10, 20, 30 s", Role.Track),
        ("A", "AOS; arrow: LOS", Role.TrackPast),
        ("☼", "sun", Role.Caution),
    ];

    public static Block Of(bool replay, bool steers, int width, int height)
    {
        Canvas canvas = new(width, height);
        int columnWidth = width >= 2 * RoomyColumnWidth ? RoomyColumnWidth : ColumnWidth;
        canvas.Text(0, 0, "KEYS (H closes)", Role.Strong);
        int row = 1;
        int column = 0;
        foreach (KeyEntry entry in KeyTable.For(replay, steers))
        {
            Line(canvas, column, row, entry.Shown, entry.Help, Role.Key);
            (column, row) = row + 1 < height ? (column, row + 1) : (column + columnWidth, 1);
        }

        if (column == 0)
        {
            (column, row) = (width >= 2 * columnWidth ? (columnWidth, 1) : (0, row + 1));
        }
        else
        {
            row++;
        }

        foreach ((string sign, string says, Role role) in Signs)
        {
            Line(canvas, column, row++, sign, says, role);
        }

        return canvas.ToBlock();
    }

    private static void Line(Canvas canvas, int column, int row, string left, string right, Role role)
    {
        canvas.Text(column, row, left, role);
        canvas.Text(column + KeyWidth, row, right, Role.Plain);
    }
}
