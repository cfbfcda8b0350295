using Cockpit.Session.State;

namespace Cockpit.Screen.Panels;

/// <summary>What stands in a terminal below 80 x 23, as when letters are zoomed to be read from afar: the band, and below it what still fits.</summary>
internal static class SmallPage
{
    /// <summary>Below this there is only the sentence that it is too small.</summary>
    public const int LeastWidth = 20;

    /// <summary>Below this there is only the sentence that it is too small.</summary>
    public const int LeastHeight = 6;

    private const int LeastLevelRows = 4;

    /// <summary>The page.</summary>
    /// <param name="input">What it is made of.</param>
    /// <param name="now">The moment.</param>
    /// <param name="move">The move as it is shown.</param>
    /// <param name="width">Columns.</param>
    /// <param name="height">Rows.</param>
    public static Block Of(PageInput input, Snapshot now, ShownMove? move, int width, int height)
    {
        Canvas canvas = new(width, height);
        int band = BannerPanel.RowsFor(now, move, width, height);
        canvas.Put(BannerPanel.Of(now, move, width, band), 0, 0);
        int row = band;
        int last = height;
        if (last - row > 0)
        {
            canvas.Put(StripPanel.Of(now, width), 0, row++);
        }

        // A sentence of the screen itself has to be seen in any size.
        if (last - row > 0 && (input.Notice is not null || last - row > 3))
        {
            canvas.Put(KeysPanel.Of(input, width), 0, --last);
        }

        if (last - row > 0)
        {
            canvas.Put(ClockPanel.Of(now, input.Player, input.Replay, width), 0, row++);
        }

        if (last - row > 0)
        {
            canvas.Put(MessagePanel.Of(now, width), 0, --last);
        }

        if (last - row > 0)
        {
            canvas.Put(HoldPanel.Of(now, width), 0, row++);
        }

        if (input is { View: PlotView.Review, Review: { } review })
        {
            canvas.Put(ReviewPanel.Of(review, width, last - row), 0, row);
        }
        else if (last - row >= LeastLevelRows)
        {
            canvas.Put(LevelPanel.Of(now, width, last - row, input.SevenBit), 0, row);
        }

        return canvas.ToBlock();
    }
}
