namespace Cockpit.Screen.Panels;

/// <summary>A rectangle of cells.</summary>
internal readonly record struct Place(int Column, int Row, int Width, int Height);

/// <summary>Where the panels stand at a size.</summary>
internal sealed record Layout(Place Banner, Place Strip, Place Clock, Place Hold, Place Pursuit, Place Sky, Place Readings, Place Level, Place Message, Place Timeline, Place Keys)
{
    private const int LargeWidth = 110;
    private const int LargeHeight = 34;
    private const int LeastLevel = 3;

    /// <summary>The place of the help: beside the aim, over sky and readings.</summary>
    public Place Help => new(Sky.Column, Sky.Row, Readings.Column + Readings.Width - Sky.Column, Math.Max(Sky.Height, Readings.Height));

    /// <summary>All between the three lines under the band and the message.</summary>
    public Place Middle => new(Pursuit.Column, Pursuit.Row, Message.Width, Message.Row - Pursuit.Row);

    /// <summary>The layout for a size of at least 80 x 23.</summary>
    /// <param name="width">Columns.</param>
    /// <param name="height">Rows.</param>
    /// <param name="replay">With a row for the time line.</param>
    /// <param name="tallBand">The letters of the band are five rows high at any size, for want of half blocks; the level pays for one of them.</param>
    public static Layout For(int width, int height, bool replay, bool tallBand)
    {
        bool large = width >= LargeWidth && height >= LargeHeight;
        int band = large || tallBand ? BannerPanel.LargeRows : BannerPanel.SmallRows;
        int gap = large ? 1 : 0;
        int level = large ? Math.Clamp(4 + ((height - 34) / 3), 5, 10) : Math.Clamp(4 + ((height - 24) / 4), 4, 8);
        int feet = replay ? 3 : 2;
        level -= level > LeastLevel && (replay || (tallBand && !large)) ? 1 : 0;
        int room = height - band - 3 - level - feet - (2 * gap);

        // Plots are square on the glass: a row is as high as two columns are wide. What width is left goes to the numbers.
        int plotWidth = Math.Min((width - ReadingsPanel.LeastWidth - 2 - (2 * gap)) / 2, (2 * room) + 1);
        plotWidth -= 1 - (plotWidth % 2);
        int plotHeight = Math.Min(room, (plotWidth / 2) + 1);
        level += room - plotHeight;

        int row = band;
        Place banner = new(0, 0, width, band);
        Place strip = new(0, row, width, 1);
        Place clock = new(0, row + 1, width, 1);
        Place hold = new(0, row + 2, width, 1);
        row += 3 + gap;
        Place pursuit = new(0, row, plotWidth, plotHeight);
        Place sky = new(plotWidth + 1, row, plotWidth - 1, plotHeight);
        int column = (2 * plotWidth) + (large ? 2 : 1);
        Place readings = new(column, row, width - column, plotHeight);
        row += plotHeight + gap;
        return new Layout(banner, strip, clock, hold, pursuit, sky, readings, new(0, row, width, level), new(0, height - feet, width, 1), new(0, height - 2, width, replay ? 1 : 0), new(0, height - 1, width, 1));
    }
}
