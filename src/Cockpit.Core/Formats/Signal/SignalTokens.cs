using System.Buffers.Text;
using System.Globalization;
using System.Text;

namespace Cockpit.Core.Formats.Signal;

/// <summary>The small words of the signal line: white space, numbers, units, and what to say about the rest.</summary>
internal static class SignalTokens
{
    internal const string NotANumber = "the value is not a number (nan or infinite); leave the key out when there is no value";

    private const string DecimalComma = "decimal comma; write numbers with a point, and separate pairs by spaces";

    /// <summary>Number of spaces and tabs at the start.</summary>
    internal static int SpaceAt(ReadOnlySpan<byte> text)
    {
        int other = text.IndexOfAnyExcept((byte)' ', (byte)'\t');
        return other < 0 ? text.Length : other;
    }

    /// <summary>Number of bytes at the start that can be in a key.</summary>
    internal static int KeyLength(ReadOnlySpan<byte> text)
    {
        int length = 0;
        while (length < text.Length && (char.IsAsciiLetterOrDigit((char)text[length]) || text[length] is (byte)'_' or (byte)'-' or (byte)'.'))
        {
            length++;
        }

        return length;
    }

    /// <summary>Reads the decimal at the start; on a mistake the length is where it is.</summary>
    internal static (int Length, string? Problem) ReadDecimal(ReadOnlySpan<byte> text, out double value)
    {
        value = 0;
        int sign = !text.IsEmpty && text[0] is (byte)'+' or (byte)'-' ? 1 : 0;
        int whole = sign + DigitsAt(text[sign..]);
        if (whole == sign)
        {
            return IsNotANumber(text) ? (0, NotANumber) : (sign, $"expected a digit, found {Quote(text[sign..])}");
        }

        int length = whole;
        if (length < text.Length && text[length] == (byte)'.')
        {
            length += 1 + DigitsAt(text[(length + 1)..]);
        }

        if (length < text.Length && text[length] is (byte)'e' or (byte)'E')
        {
            int exponent = length + 1;
            exponent += exponent < text.Length && text[exponent] is (byte)'+' or (byte)'-' ? 1 : 0;
            int end = exponent + DigitsAt(text[exponent..]);
            if (end == exponent)
            {
                return (exponent, $"expected a digit of the exponent, found {Quote(text[exponent..])}");
            }

            length = end;
        }

        return Utf8Parser.TryParse(text[..length], out value, out int used) && used == length
            ? (length, null)
            : (0, $"the number {Quote(text[..length])} is too large");
    }

    /// <summary>What to say about text where a number should have ended.</summary>
    internal static string AfterNumber(ReadOnlySpan<byte> text) => text[0] == (byte)','
        ? DecimalComma
        : $"expected the end of the number, found {Quote(text)}";

    /// <summary>Whether all of the text is a unit of level; upper and lower case are the same.</summary>
    internal static bool IsUnit(ReadOnlySpan<byte> text) => Is(text, "db") || Is(text, "dbm") || Is(text, "dbfs") || Is(text, "dbhz");

    /// <summary>Whether all of the text is one of the words for no number.</summary>
    internal static bool IsNotANumber(ReadOnlySpan<byte> text)
    {
        ReadOnlySpan<byte> word = text.TrimStart("+-"u8);
        return Is(word, "nan") || Is(word, "inf") || Is(word, "infinity");
    }

    /// <summary>The text for a person: its first printable characters in quotes, or the code of the first that is not.</summary>
    internal static string Quote(ReadOnlySpan<byte> text)
    {
        const int shown = 20;
        if (text.IsEmpty)
        {
            return "the end";
        }

        int printable = text.IndexOfAnyExceptInRange((byte)' ', (byte)'~');
        if (printable == 0)
        {
            return string.Create(CultureInfo.InvariantCulture, $"a byte that is not text (0x{text[0]:x2})");
        }

        ReadOnlySpan<byte> part = printable < 0 ? text : text[..printable];
        return $"\"{Encoding.ASCII.GetString(part[..Math.Min(part.Length, shown)])}\"";
    }

    /// <summary>Shortest text that reads back to the same number; null stays null.</summary>
    internal static string? Exact(double? value) => value?.ToString("R", CultureInfo.InvariantCulture);

    /// <summary>The whole number; null stays null.</summary>
    internal static string? Exact(long? value) => value?.ToString(CultureInfo.InvariantCulture);

    private static int DigitsAt(ReadOnlySpan<byte> text)
    {
        int other = text.IndexOfAnyExceptInRange((byte)'0', (byte)'9');
        return other < 0 ? text.Length : other;
    }

    private static bool Is(ReadOnlySpan<byte> text, string word) => Ascii.EqualsIgnoreCase(text, word);
}
