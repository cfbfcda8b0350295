using System.Collections.Immutable;
using Cockpit.Screen.Themes;
using Cockpit.Session.State;

namespace Cockpit.Screen.Panels;

/// <summary>The band at the top: the command in letters for two metres.</summary>
internal static class BannerPanel
{
    /// <summary>Rows of the band in a large terminal: a dot of a letter is a cell high.</summary>
    public const int LargeRows = BigLetters.Dots;

    /// <summary>Rows of the band in a small terminal: a dot of a letter is half a cell high.</summary>
    public const int SmallRows = 3;

    /// <summary>The band.</summary>
    /// <param name="now">The moment.</param>
    /// <param name="move">The move as it is shown.</param>
    /// <param name="width">Columns.</param>
    /// <param name="rows">Rows.</param>
    public static Block Of(Snapshot now, ShownMove? move, int width, int rows)
    {
        Banner banner = Banner.Of(now, move);
        ImmutableArray<BandPiece> pieces = BandPieces.Of(banner, now);
        BandForm form = BandForm.For(pieces, width, rows);
        Canvas canvas = new(width, rows, banner.Role);
        for (int row = 0; row < rows && !form.Stacked; row++)
        {
            canvas.Text(0, row, Mark(now.Aim.Word), banner.Role);
        }

        if (form.Pieces == 0)
        {
            canvas.Text(BandForm.Left, 0, Figures.Fit(banner.ToString(), width - BandForm.Left), banner.Role);
        }
        else if (form.Stacked)
        {
            Stack(canvas, pieces, form, banner, StripPanel.TroubleOf(now));
        }
        else
        {
            Row(canvas, pieces, form, banner.Role);
        }

        return canvas.ToBlock();
    }

    /// <summary>Rows that the band takes when it may take so many.</summary>
    public static int RowsFor(Snapshot now, ShownMove? move, int width, int rows) => BandForm.For(BandPieces.Of(Banner.Of(now, move), now), width, rows).Rows;

    /// <summary>A mark at the left edge, different for each word, so that the band differs without colour too.</summary>
    private static string Mark(AimWord word) => word switch
    {
        AimWord.Hold => "██",
        AimWord.Move => "►►",
        AimWord.Next => "► ",
        AimWord.Search => "▒▒",
        AimWord.Point => "│ ",
        _ => "  ",
    };

    private static void Row(Canvas canvas, ImmutableArray<BandPiece> pieces, BandForm form, Role role)
    {
        int column = BandForm.Left;
        for (int i = 0; i < pieces.Length; i++)
        {
            int dot = i == 0 ? form.WordDot : form.Dot;
            Paint(canvas, column, 0, pieces[i], form, dot, role);
            column += pieces[i].Width(dot) + (form.Gap * dot);
        }
    }

    /// <summary>Sideways above upwards; at their right the word, in the colour of trouble where the strip may have no room, and the time left.</summary>
    private static void Stack(Canvas canvas, ImmutableArray<BandPiece> pieces, BandForm form, Banner banner, Role? trouble)
    {
        int second = form.Half ? form.Rows / 2 : BigLetters.Dots + 1;
        Paint(canvas, 0, 0, pieces[1] with { Unit = "" }, form, form.Dot, banner.Role);
        Paint(canvas, 0, second, pieces[2] with { Unit = "" }, form, form.Dot, banner.Role);
        string left = banner.Countdown is { } countdown ? $"{countdown.Number} {countdown.Unit}" : banner.Role == Role.Move ? "now" : "";
        canvas.TextBefore(canvas.Width, 0, banner.Word, trouble ?? banner.Role);
        canvas.TextBefore(canvas.Width, 1, left, banner.Role);
        canvas.TextBefore(canvas.Width, second - 1, pieces[1].Unit.Trim(), banner.Role);
        canvas.TextBefore(canvas.Width, form.Rows - 1, pieces[2].Unit.Trim(), banner.Role);
    }

    private static void Paint(Canvas canvas, int column, int row, BandPiece piece, BandForm form, int dot, Role role)
    {
        if (form.Half)
        {
            BigLetters.PaintHalf(canvas, column, row, piece.Big, role);
        }
        else
        {
            BigLetters.PaintWhole(canvas, column, row, piece.Big, role, dot);
        }

        int bottom = row + (form.Half ? SmallRows : BigLetters.Dots) - 1;
        canvas.Text(column + (BigLetters.Width(piece.Big) * dot) + 1, bottom, piece.Unit, role);
    }
}
