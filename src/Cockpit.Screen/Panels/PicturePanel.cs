using System.Collections.Immutable;
using System.Globalization;
using Cockpit.Core.Signal;
using Cockpit.Screen.Themes;
using Cockpit.Session.State;

namespace Cockpit.Screen.Panels;

/// <summary>The picture as it grows, newest line at the bottom: four dithered pixels a cell; what is wider than the pane is thinned, a lost line is dark.</summary>
/// <remarks>
/// Ordered dithering with the 4 by 4 matrix of B. E. Bayer, "An optimum method for two-level rendition of continuous-tone pictures" (ICC 1973).
/// The greys are stretched between the darkest and the brightest of what is shown: it is a look at what the hand does to the picture.
/// </remarks>
internal static class PicturePanel
{
    private const string Quadrants = " \u2598\u259D\u2580\u2596\u258C\u259E\u259B\u2597\u259A\u2590\u259C\u2584\u2599\u259F\u2588";

    private static readonly int[] Bayer = [0, 8, 2, 10, 12, 4, 14, 6, 3, 11, 1, 9, 15, 7, 13, 5];

    public static Block Of(Snapshot now, int width, int height)
    {
        Canvas canvas = new(width, height);
        if (now.Picture is not { } picture || height < 2)
        {
            canvas.Text(0, 0, "PICTURE", Role.Dim);
            canvas.Text(0, 2, Figures.Fit("comes with lock on split-phase samples", width), Role.Dim);
            return canvas.ToBlock();
        }

        canvas.Text(0, 0, Figures.Fit(string.Create(CultureInfo.InvariantCulture, $"PICTURE {picture.Lines - picture.Lost} lines, {picture.Lost} lost"), width), Role.Dim);
        int lines = 2 * (height - 1);
        ImmutableArray<string> rows = picture.Rows.Length > lines ? [.. picture.Rows.AsSpan()[^lines..]] : picture.Rows;
        (int low, int high) = Range(rows);
        for (int row = 0; row < (rows.Length + 1) / 2; row++)
        {
            string upper = rows[2 * row];
            string lower = (2 * row) + 1 < rows.Length ? rows[(2 * row) + 1] : "";
            Span<char> cells = new char[width];
            for (int column = 0; column < width; column++)
            {
                int cell = 0;
                for (int dot = 0; dot < 4; dot++)
                {
                    int x = (2 * column) + (dot & 1);
                    int y = (2 * row) + (dot >> 1);
                    cell |= Lit(dot < 2 ? upper : lower, x, y, 2 * width, low, high) ? 1 << dot : 0;
                }

                cells[column] = Quadrants[cell];
            }

            canvas.Text(0, row + 1, new string(cells), Role.Plain);
        }

        return canvas.ToBlock();
    }

    private static bool Lit(string row, int x, int y, int across, int low, int high)
    {
        if (row.Length == 0)
        {
            return false;
        }

        int grey = GreyRow.GreyOf(row[Math.Min(x * row.Length / across, row.Length - 1)]);
        int threshold = Bayer[(4 * (y & 3)) + (x & 3)];
        return 16 * (grey - low) > (threshold * (high - low)) + ((high - low) / 2);
    }

    private static (int Low, int High) Range(ImmutableArray<string> rows)
    {
        int low = GreyRow.Greys - 1, high = 0;
        foreach (char pixel in rows.SelectMany(row => row))
        {
            int grey = GreyRow.GreyOf(pixel);
            low = Math.Min(low, grey);
            high = Math.Max(high, grey);
        }

        return high > low ? (low, high) : (0, GreyRow.Greys - 1);
    }
}
