using System.Collections.Immutable;
using Cockpit.Screen.Themes;
using Cockpit.Session.State;

namespace Cockpit.Screen.Panels;

/// <summary>The band at the top: the command in letters for two metres, and the same in words.</summary>
internal static class BannerPanel
{
    /// <summary>Rows of the band in a large terminal: letters a cell a dot, words below.</summary>
    public const int LargeRows = BigLetters.Dots + 1;

    /// <summary>Rows of the band in a small terminal: letters half a cell a dot, words beside.</summary>
    public const int SmallRows = 3;

    private const int CaptionWidth = 17;
    private const int Left = 3;

    /// <summary>The band.</summary>
    /// <param name="now">The moment.</param>
    /// <param name="move">The move as it is shown.</param>
    /// <param name="width">Columns.</param>
    /// <param name="rows">Either of the two heights.</param>
    public static Block Of(Snapshot now, ShownMove? move, int width, int rows)
    {
        Banner banner = Banner.Of(now, move);
        Canvas canvas = new(width, rows, banner.Role);
        for (int row = 0; row < rows; row++)
        {
            canvas.Text(0, row, Mark(now.Aim.Word), banner.Role);
        }

        Banner then = Banner.Of(now with { Aim = now.Aim with { Word = AimWord.Next } }, move);
        ImmutableArray<BandPiece> pieces = BandPieces.Of(banner, now, then);
        if (rows >= LargeRows)
        {
            Large(canvas, pieces, banner.Role);
        }
        else
        {
            Small(canvas, pieces, BandPieces.Caption(banner, now, then), banner.Role);
        }

        return canvas.ToBlock();
    }

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

    private static void Large(Canvas canvas, ImmutableArray<BandPiece> pieces, Role role)
    {
        int room = canvas.Width - Left - 1;
        (ImmutableArray<BandPiece> fitting, int gap, int dot) = Fit(pieces, room, [2, 1]);
        int column = Left;
        for (int i = 0; i < fitting.Length; i++)
        {
            BandPiece piece = fitting[i];
            int slot = (SlotOf(piece) + gap) * dot;
            BigLetters.PaintWhole(canvas, column, 0, piece.Big, role, dot);
            canvas.Text(column, BigLetters.Dots, Figures.Fit(piece.Words, i < fitting.Length - 1 ? slot - 1 : canvas.Width - column), role);
            column += slot;
        }
    }

    private static void Small(Canvas canvas, ImmutableArray<BandPiece> pieces, ImmutableArray<string> caption, Role role)
    {
        int captionColumn = canvas.Width - CaptionWidth;
        (ImmutableArray<BandPiece> fitting, int gap, _) = Fit(pieces, captionColumn - Left - 1, [1]);
        int column = Left;
        foreach (BandPiece piece in fitting)
        {
            BigLetters.PaintHalf(canvas, column, 0, piece.Big, role);
            column += SlotOf(piece) + gap;
        }

        for (int i = 0; i < caption.Length && i < canvas.Height; i++)
        {
            canvas.Text(captionColumn, i, Figures.Fit(caption[i], CaptionWidth), role);
        }
    }

    /// <summary>The widest setting that fits: large dots before small ones, wide gaps before narrow ones; at last the seconds go.</summary>
    private static (ImmutableArray<BandPiece> Pieces, int Gap, int Dot) Fit(ImmutableArray<BandPiece> pieces, int room, int[] dots)
    {
        foreach (int dot in dots)
        {
            foreach (ImmutableArray<BandPiece> some in pieces.Length > 3 ? [pieces, pieces[..3]] : new[] { pieces })
            {
                for (int gap = 3; gap >= 1; gap--)
                {
                    int needed = some.Take(some.Length - 1).Sum(piece => SlotOf(piece) + gap) + BigLetters.Width(some[^1].Big);
                    if (needed * dot <= room)
                    {
                        return (some, gap, dot);
                    }
                }
            }
        }

        return (pieces[..1], 1, dots[^1]);
    }

    private static int SlotOf(BandPiece piece) => Math.Max(BigLetters.Width(piece.Big), BigLetters.Width(piece.Slot));
}
