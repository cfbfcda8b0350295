using System.Collections.Immutable;
using Cockpit.Screen.Themes;

namespace Cockpit.Screen.Panels;

/// <summary>A page in seven-bit characters (ISO/IEC 646), cell for cell: for terminals that cannot show block and braille signs.</summary>
internal static class SevenBitPage
{
    /// <summary>The page in other signs; roles and columns stay.</summary>
    /// <param name="page">The page as it is drawn with all signs.</param>
    public static Block Of(Block page) => new(page.Width, [.. page.Lines.Select(line => (ImmutableArray<Run>)[.. line.Select(Of)])]);

    private static Run Of(Run run)
    {
        ReadOnlySpan<char> rest = run.Text;
        char[] signs = new char[CellColumns.Width(run.Text)];
        int at = 0;
        while (CellColumns.Take(ref rest, out ReadOnlySpan<char> cell, out int width))
        {
            Array.Fill(signs, cell.Length == 1 ? Of(cell[0], run.Role) : SevenBitSigns.Unknown, at, width);
            at += width;
        }

        return new Run(new string(signs), run.Role);
    }

    private static char Of(char sign, Role role) => (role is Role.Grid or Role.Expected or Role.Satellite) && sign is >= BrailleStrokes.First and <= BrailleStrokes.Last
        ? BrailleStrokes.Points(sign)
        : SevenBitSigns.Of(sign);
}
