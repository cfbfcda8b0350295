using System.Buffers;
using System.Globalization;
using System.Text;
using Wcwidth;

namespace Cockpit.Screen.Panels;

/// <summary>Text as cells of the screen: where one cell ends and the next begins, and how many columns each takes.</summary>
/// <remarks>
/// A cell is what a reader takes for one character (extended grapheme cluster, UAX #29), in the width that terminals give it
/// (UAX #11, by the tables that the terminal library uses too). Terminals disagree about joined emoji, flags and letters made of
/// several parts; these, and whatever is not to be seen, are one replacement sign, so that no row is ever shifted. Signs that only
/// choose the style of the one before (variation selectors) are left out.
/// </remarks>
internal static class CellColumns
{
    private const string Replacement = "\uFFFD";
    private const int MostMarks = 4;

    /// <summary>Takes the next cell.</summary>
    /// <param name="rest">The text; what was taken is cut off.</param>
    /// <param name="cell">What to draw.</param>
    /// <param name="width">Its columns, 1 or 2.</param>
    /// <returns>False at the end of the text.</returns>
    public static bool Take(ref ReadOnlySpan<char> rest, out ReadOnlySpan<char> cell, out int width)
    {
        width = 1;
        if (rest.IsEmpty)
        {
            cell = default;
            return false;
        }

        int length = IsPlain(rest[0]) && (rest.Length == 1 || rest[1] < '\u0300' || IsPlain(rest[1])) ? 1 : StringInfo.GetNextTextElementLength(rest);
        cell = rest[..length];
        rest = rest[length..];
        if (length > 1 || !IsPlain(cell[0]))
        {
            cell = Drawn(cell, out width);
        }

        return true;
    }

    /// <summary>How many columns a text takes.</summary>
    public static int Width(ReadOnlySpan<char> text)
    {
        int columns = 0;
        while (Take(ref text, out _, out int width))
        {
            columns += width;
        }

        return columns;
    }

    /// <summary>As much of a text as fits into some columns, filled with blanks up to them.</summary>
    public static string Cut(string text, int columns)
    {
        ReadOnlySpan<char> rest = text;
        int taken = 0;
        int length = 0;
        while (Take(ref rest, out _, out int width) && taken + width <= columns)
        {
            taken += width;
            length = text.Length - rest.Length;
        }

        return text[..length] + new string(' ', columns - taken);
    }

    /// <summary>The signs that panels are made of (Latin letters, box drawing, blocks, shapes up to U+25FC, braille): one cell each, no look-up needed.</summary>
    public static bool IsPlain(char glyph) =>
        glyph is (>= ' ' and <= '~') or (>= '\u00A0' and <= '\u02FF' and not '\u00AD') or (>= '\u2500' and <= '\u25FC') or (>= '\u2800' and <= '\u28FF');

    private static ReadOnlySpan<char> Drawn(ReadOnlySpan<char> cluster, out int width)
    {
        width = 1;
        bool whole = Rune.DecodeFromUtf16(cluster, out Rune first, out int length) == OperationStatus.Done;
        int columns = whole && IsDrawable(first) ? UnicodeCalculator.GetWidth(first) : 0;
        if (columns is not (1 or 2) || !MarksOnly(cluster[length..], out int marks))
        {
            return Replacement;
        }

        width = columns;
        return cluster[..(length + marks)];
    }

    /// <summary>Whether a few marks over or under the first sign follow, and nothing else; variation selectors may end them.</summary>
    private static bool MarksOnly(ReadOnlySpan<char> rest, out int length)
    {
        length = 0;
        int marks = 0;
        for (int at = 0; at < rest.Length;)
        {
            bool whole = Rune.DecodeFromUtf16(rest[at..], out Rune rune, out int units) == OperationStatus.Done;
            at += units;
            if (whole && IsVariationSelector(rune))
            {
                continue;
            }

            bool isMark = whole && Rune.GetUnicodeCategory(rune) is UnicodeCategory.NonSpacingMark or UnicodeCategory.EnclosingMark
                && UnicodeCalculator.GetWidth(rune) == 0 && length == at - units;
            if (!isMark || ++marks > MostMarks)
            {
                return false;
            }

            length = at;
        }

        return true;
    }

    private static bool IsVariationSelector(Rune rune) => rune.Value is (>= 0xFE00 and <= 0xFE0F) or (>= 0xE0100 and <= 0xE01EF);

    private static bool IsDrawable(Rune rune)
    {
        // Two regional indicators become a flag, parts of Hangul a syllable: alone they wait for what stands beside them.
        bool joins = rune.Value is (>= 0x1F1E6 and <= 0x1F1FF) or (>= 0x1100 and <= 0x11FF) or (>= 0xA960 and <= 0xA97F) or (>= 0xD7B0 and <= 0xD7FF);
        return !joins && Rune.GetUnicodeCategory(rune) is not (UnicodeCategory.Control or UnicodeCategory.Format or UnicodeCategory.Surrogate
            or UnicodeCategory.PrivateUse or UnicodeCategory.OtherNotAssigned or UnicodeCategory.LineSeparator or UnicodeCategory.ParagraphSeparator);
    }
}
