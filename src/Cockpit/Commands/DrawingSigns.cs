using Cockpit.Screen.Views;

namespace Cockpit.Commands;

/// <summary>What bars and plots in a terminal are drawn with.</summary>
/// <param name="Columns">A column from empty to full, in equal steps.</param>
/// <param name="Bars">A bar's cell from empty to full, in equal steps.</param>
/// <param name="Empty">A bar where it is empty.</param>
/// <param name="Best">The highest of late.</param>
/// <param name="On">Something is so.</param>
/// <param name="Off">It is not.</param>
/// <param name="Here">Points up at a place.</param>
/// <param name="Line">A line across.</param>
internal sealed record DrawingSigns(string Columns, string Bars, char Empty, char Best, char On, char Off, char Here, char Line)
{
    /// <summary>Block elements of Unicode.</summary>
    public static DrawingSigns Unicode { get; } = new(" ▁▂▃▄▅▆▇█", " ▏▎▍▌▋▊▉█", '·', '┃', '●', '○', '▲', '─');

    /// <summary>Seven-bit characters.</summary>
    public static DrawingSigns Ascii { get; } = new(" .:|#", " #", '.', '|', '*', 'o', '^', '-');

    /// <summary>What the terminal can show.</summary>
    public static DrawingSigns OfTerminal => Drawing.Auto.IsSevenBit() ? Ascii : Unicode;

    /// <summary>A bar.</summary>
    /// <param name="share">How much of it is full, 0 to 1; null = nothing is known.</param>
    /// <param name="width">Its cells.</param>
    /// <param name="best">Where the highest of late stands, 0 to 1; null = nowhere.</param>
    public string Bar(double? share, int width, double? best = null)
    {
        char[] cells = new char[width];
        int steps = Bars.Length - 1;
        int full = (int)Math.Round(Math.Clamp(share ?? 0, 0, 1) * width * steps);
        for (int k = 0; k < width; k++)
        {
            int part = Math.Clamp(full - (k * steps), 0, steps);
            cells[k] = part == 0 ? Empty : Bars[part];
        }

        if (best is { } high && width > 0)
        {
            int at = Math.Clamp((int)(Math.Clamp(high, 0, 1) * width), 0, width - 1);
            cells[at] = at * steps >= full ? Best : cells[at];
        }

        return new string(cells);
    }

    /// <summary>One row of a plot of columns.</summary>
    /// <param name="heights">Of the columns, 0 to 1.</param>
    /// <param name="row">Which, from above.</param>
    /// <param name="rows">How many there are.</param>
    public string Row(ReadOnlySpan<double> heights, int row, int rows)
    {
        int steps = Columns.Length - 1;
        char[] cells = new char[heights.Length];
        for (int k = 0; k < cells.Length; k++)
        {
            int filled = (int)Math.Round(Math.Clamp(heights[k], 0, 1) * rows * steps);
            cells[k] = Columns[Math.Clamp(filled - ((rows - 1 - row) * steps), 0, steps)];
        }

        return new string(cells);
    }
}
