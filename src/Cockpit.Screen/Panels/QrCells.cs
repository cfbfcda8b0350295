using System.Collections;
using System.Collections.Immutable;
using QRCoder;

namespace Cockpit.Screen.Panels;

/// <summary>A QR code (ISO/IEC 18004) in cells: two modules above each other in each, to be written black on white.</summary>
public static class QrCells
{
    /// <summary>The lines of a code, with the four light modules around it that it needs.</summary>
    /// <param name="text">What it says.</param>
    /// <returns>Lines of equal length: a blank where both modules are light.</returns>
    public static ImmutableArray<string> Of(string text)
    {
        // Level L: a screen has no scratches, and the code is smallest. The modules hold the light border already.
        using QRCodeGenerator generator = new();
        using QRCodeData code = generator.CreateQrCode(text, QRCodeGenerator.ECCLevel.L);
        List<BitArray> rows = code.ModuleMatrix;
        return [.. Enumerable.Range(0, (rows.Count + 1) / 2).Select(line => Line(rows[2 * line], (2 * line) + 1 < rows.Count ? rows[(2 * line) + 1] : null))];
    }

    private static string Line(BitArray upper, BitArray? lower) => string.Create(upper.Length, (upper, lower), static (cells, rows) =>
    {
        for (int i = 0; i < cells.Length; i++)
        {
            cells[i] = (rows.upper[i], rows.lower is { } below && below[i]) switch
            {
                (true, true) => '█',
                (true, false) => '▀',
                (false, true) => '▄',
                _ => ' ',
            };
        }
    });
}
