using System.Buffers;
using System.Globalization;
using System.Text;

namespace Cockpit.Core.Formats;

/// <summary>The one filter for text from outside (files, feeds, paths, names) on its way to a terminal, a file or a calendar.</summary>
/// <remarks>
/// Taken out are the characters that a terminal or a text viewer obeys instead of showing: C0, DEL and C1 (ECMA-48, 5.2, 5.3), the
/// bidirectional and all other format characters but the two joiners (Unicode 15, general category Cf; UAX #9), the separators of
/// lines and paragraphs, and halves of surrogate pairs. In the place of each stands U+FFFD, so that a change can be seen.
/// </remarks>
public static class TextFilter
{
    /// <summary>Stands for what cannot be shown.</summary>
    public const char Replacement = '\uFFFD';

    private const char ZeroWidthNonJoiner = '\u200C';
    private const char ZeroWidthJoiner = '\u200D';

    /// <summary>The text with every harmful character replaced; the same text where there is none.</summary>
    /// <param name="text">Any text.</param>
    public static string Clean(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        return FirstHarmful(text) < 0 ? text : Clean(text.AsSpan(), "");
    }

    /// <summary>The text with every harmful character replaced.</summary>
    /// <param name="text">Any text; half a surrogate pair at its end counts as harmful.</param>
    /// <param name="allowed">Control characters that stay.</param>
    public static string Clean(ReadOnlySpan<char> text, ReadOnlySpan<char> allowed)
    {
        StringBuilder clean = new(text.Length);
        while (!text.IsEmpty)
        {
            bool whole = Rune.DecodeFromUtf16(text, out Rune rune, out int length) == OperationStatus.Done;
            _ = whole && (!IsHarmful(rune) || (rune.IsBmp && allowed.Contains((char)rune.Value)))
                ? clean.Append(text[..length])
                : clean.Append(Replacement);
            text = text[length..];
        }

        return clean.ToString();
    }

    /// <summary>Where the first harmful character stands; -1 where there is none.</summary>
    public static int FirstHarmful(ReadOnlySpan<char> text)
    {
        for (int at = 0; at < text.Length;)
        {
            if (Rune.DecodeFromUtf16(text[at..], out Rune rune, out int length) != OperationStatus.Done || IsHarmful(rune))
            {
                return at;
            }

            at += length;
        }

        return -1;
    }

    /// <summary>Whether a terminal or a viewer may obey the character instead of showing it.</summary>
    public static bool IsHarmful(Rune rune)
    {
        if (rune.IsAscii)
        {
            return rune.Value is < ' ' or 0x7F;
        }

        return Rune.GetUnicodeCategory(rune) switch
        {
            UnicodeCategory.Control or UnicodeCategory.LineSeparator or UnicodeCategory.ParagraphSeparator or UnicodeCategory.Surrogate => true,
            UnicodeCategory.Format => rune.Value is not (ZeroWidthNonJoiner or ZeroWidthJoiner),
            _ => false,
        };
    }
}
