using System.Globalization;

namespace Cockpit.Core.Formats.Elements;

/// <summary>What both lines of a TLE have in common: how to know one, its length, its checksum.</summary>
internal static class TleLine
{
    /// <summary>Columns of a complete line, the checksum included.</summary>
    internal const int Columns = 69;

    /// <summary>Whether a line means to be line 1 or 2 of a TLE, even a damaged one; a name like "1 HOPEFUL" does not.</summary>
    internal static bool Is(ReadOnlySpan<char> line, char number)
    {
        if (line.Length < 7 || line[0] != number || line[1] != ' ')
        {
            return false;
        }

        bool digit = false;
        foreach (char c in line[2..7])
        {
            digit |= char.IsAsciiDigit(c);
            if (!char.IsAsciiLetterOrDigit(c) && c != ' ')
            {
                return false;
            }
        }

        return digit && !line[7..].TrimEnd(' ').IsEmpty;
    }

    /// <summary>Opens the fields of a line; length and checksum are looked at first. Text behind a blank column 70 is not read.</summary>
    internal static TleFields Open(ReadOnlySpan<char> line, ElementReading how)
    {
        ReadOnlySpan<char> text = line.TrimEnd(" \t");
        bool tooLong = text.Length > Columns && text[Columns] is not (' ' or '\t');
        bool tooShort = text.Length < Columns;
        Span<char> padded = new char[Columns];
        padded.Fill(' ');
        text[..Math.Min(Columns, text.Length)].CopyTo(padded);
        var fields = new TleFields(padded);
        if (tooShort)
        {
            fields.Complain(text.Length + 1, Invariant($"line {text[0]} is short: {text.Length} characters, expected {Columns}; get the element set again"));
        }
        else if (tooLong)
        {
            fields.Complain(Columns + 1, Invariant($"line {text[0]} is too long: {text.Length} characters, expected {Columns}; get the element set again"));
        }
        else if (!how.AcceptWrongChecksums)
        {
            CheckSum(ref fields, padded);
        }

        return fields;
    }

    private static void CheckSum(ref TleFields fields, ReadOnlySpan<char> line)
    {
        int expected = TleCodes.Checksum(line[..68]);
        if (line[68] - '0' != expected)
        {
            fields.Complain(Columns, Invariant($"the checksum of line {line[0]} is '{line[68]}', expected {expected}; a character was changed, get the element set again"));
        }
    }

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
