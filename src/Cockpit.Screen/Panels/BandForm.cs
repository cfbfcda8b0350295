using System.Collections.Immutable;

namespace Cockpit.Screen.Panels;

/// <summary>How the band is set: what letters, beside each other or one below the other.</summary>
/// <param name="Rows">Rows that it takes.</param>
/// <param name="Half">A dot is half a cell high, a letter three rows; else five.</param>
/// <param name="Stacked">Sideways and upwards one below the other, word and time beside them in plain letters.</param>
/// <param name="WordDot">Cells that a dot of the word is wide.</param>
/// <param name="Dot">Cells that a dot of the rest is wide.</param>
/// <param name="Gap">Columns between the pieces.</param>
/// <param name="Pieces">How many of the pieces are painted large.</param>
internal readonly record struct BandForm(int Rows, bool Half, bool Stacked, int WordDot, int Dot, int Gap, int Pieces)
{
    /// <summary>Columns left of the pieces: the mark and a blank.</summary>
    public const int Left = 3;

    private const int PlainWidth = 6;   // "SEARCH"
    private const int HalfRows = (BigLetters.Dots + 1) / 2;

    private static readonly BandForm[] Forms =
    [
        new(BigLetters.Dots, false, false, 2, 2, 0, 0),
        new(BigLetters.Dots, false, false, 1, 2, 0, 0),
        new((2 * BigLetters.Dots) + 1, false, true, 0, 2, 0, 0),
        new(BigLetters.Dots, false, false, 1, 1, 0, 0),
        new((2 * BigLetters.Dots) + 1, false, true, 0, 1, 0, 0),
        new(HalfRows, true, false, 1, 1, 0, 0),
        new(2 * HalfRows, true, true, 0, 1, 0, 0),
    ];

    /// <summary>The largest form that fits; the text alone, one row, when none does.</summary>
    /// <param name="pieces">What is to be painted.</param>
    /// <param name="width">Columns.</param>
    /// <param name="rows">Rows at most.</param>
    public static BandForm For(ImmutableArray<BandPiece> pieces, int width, int rows)
    {
        foreach (BandForm form in Forms)
        {
            if (form.Rows <= rows && form.Fitted(pieces, width) is { } fitted)
            {
                return fitted;
            }
        }

        return new BandForm(1, false, false, 0, 0, 0, 0);
    }

    private BandForm? Fitted(ImmutableArray<BandPiece> pieces, int width)
    {
        if (Stacked)
        {
            // The widest amount and the plain word beside it; there are no amounts in DONE.
            int most = 0;
            foreach (BandPiece piece in pieces.AsSpan()[1..])
            {
                most = Math.Max(most, BigLetters.Width(piece.Big) * Dot);
            }

            return pieces.Length >= 3 && most + PlainWidth - 1 <= width ? this with { Gap = 1, Pieces = 3 } : null;
        }

        for (int gap = 3; gap >= 1; gap--)
        {
            int needed = Left + pieces[0].Width(WordDot) + (gap * WordDot);
            for (int i = 1; i < pieces.Length; i++)
            {
                needed += pieces[i].Width(Dot) + (i < pieces.Length - 1 ? gap * Dot : 0);
            }

            if (needed <= width)
            {
                return this with { Gap = gap, Pieces = pieces.Length };
            }
        }

        return null;
    }
}
