using System.Globalization;

namespace Cockpit.Core.Formats.Elements;

/// <summary>The two codes that TLE lines carry: the checksum and the catalogue number in five places.</summary>
/// <remarks>
/// Layout: F. Hoots, R. Roehrich, Spacetrack Report No. 3 (1980), section 2; letters in catalogue numbers
/// (A = 10 ... Z = 33 without I and O, "Alpha-5"): published scheme for numbers above 99999, from memory.
/// </remarks>
public static class TleCodes
{
    private const string Letters = "ABCDEFGHJKLMNPQRSTUVWXYZ";

    /// <summary>Reads digits, or a letter and four digits.</summary>
    /// <param name="text">The five places of the line.</param>
    /// <param name="number">The catalogue number; 0 when it is none.</param>
    /// <returns>Whether it is one.</returns>
    public static bool TryCatalogNumber(ReadOnlySpan<char> text, out int number)
    {
        if (int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out number))
        {
            return true;
        }

        int tens = text.Length == 5 ? Letters.IndexOf(text[0], StringComparison.Ordinal) : -1;
        if (tens < 0 || !int.TryParse(text[1..], NumberStyles.None, CultureInfo.InvariantCulture, out number))
        {
            return false;
        }

        number += (tens + 10) * 10_000;
        return true;
    }

    /// <summary>Five places for a catalogue number up to 339999; null above.</summary>
    /// <param name="number">The catalogue number.</param>
    public static string? WriteCatalogNumber(int number) => number switch
    {
        < 0 or > 339_999 => null,
        < 100_000 => number.ToString("00000", CultureInfo.InvariantCulture),
        _ => Letters[(number / 10_000) - 10] + (number % 10_000).ToString("0000", CultureInfo.InvariantCulture),
    };

    /// <summary>Sum of all digits, a minus counts one, modulo ten.</summary>
    /// <param name="columns">The line without its checksum: columns 1 to 68.</param>
    /// <returns>0 to 9.</returns>
    public static int Checksum(ReadOnlySpan<char> columns)
    {
        int sum = 0;
        foreach (char c in columns)
        {
            sum += char.IsAsciiDigit(c) ? c - '0' : c == '-' ? 1 : 0;
        }

        return sum % 10;
    }
}
