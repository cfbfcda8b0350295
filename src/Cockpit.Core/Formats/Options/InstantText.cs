using System.Collections.Immutable;
using System.Globalization;

namespace Cockpit.Core.Formats.Options;

/// <summary>Reads an instant in ISO 8601, always UTC in the end.</summary>
public static class InstantText
{
    private const int TickDigits = 7;

    private static readonly string[] Layouts =
    [
        "yyyy-MM-dd'T'HH:mm:ss.FFFFFFFK", "yyyy-MM-dd HH:mm:ss.FFFFFFFK", "yyyy-MM-dd'T'HH:mmK", "yyyy-MM-dd HH:mmK", "yyyy-MM-dd",
    ];

    /// <summary>Reads one instant, for instance 2026-11-25T10:15:00Z.</summary>
    /// <param name="text">Date and time; seconds, their fraction (digits below 100 ns are dropped) and the zone may be missing. No zone means UTC, an offset is converted.</param>
    /// <param name="source">What the text belongs to, for the error: an option, a file.</param>
    /// <param name="line">Its line number from 1, or 0.</param>
    public static Parsed<DateTimeOffset> Read(string text, string source, int line = 0)
    {
        string trimmed = text.Trim();
        const DateTimeStyles utc = DateTimeStyles.AssumeUniversal | DateTimeStyles.AdjustToUniversal;
        return DateTimeOffset.TryParseExact(CutBelowTick(trimmed), Layouts, CultureInfo.InvariantCulture, utc, out DateTimeOffset instant)
            ? instant
            : new ParseError(source, line, 0, $"{Quoted.Of(trimmed)} is not an instant; write it like 2026-11-25T10:15:00Z");
    }

    /// <summary>Reads instants with commas between them.</summary>
    public static Parsed<ImmutableArray<DateTimeOffset>> ReadList(string text, string source)
    {
        var instants = ImmutableArray.CreateBuilder<DateTimeOffset>();
        foreach (string item in text.Split(','))
        {
            if (!Read(item, source).Try(out DateTimeOffset instant, out ParseError? error))
            {
                return error;
            }

            instants.Add(instant);
        }

        return instants.ToImmutable();
    }

    /// <summary>Reads instants, one a line; empty lines and lines that begin with # are passed over.</summary>
    public static Parsed<ImmutableArray<DateTimeOffset>> ReadLines(IEnumerable<string> lines, string source)
    {
        var instants = ImmutableArray.CreateBuilder<DateTimeOffset>();
        int number = 0;
        foreach (string line in lines)
        {
            number++;
            if (string.IsNullOrWhiteSpace(line) || line.TrimStart().StartsWith('#'))
            {
                continue;
            }

            if (!Read(line, source, number).Try(out DateTimeOffset instant, out ParseError? error))
            {
                return error;
            }

            instants.Add(instant);
        }

        return instants.Count > 0 ? instants.ToImmutable() : new ParseError(source, 0, 0, "no instant found; write one UTC a line, like 2026-11-25T10:15:00Z");
    }

    private static string CutBelowTick(string text)
    {
        int dot = text.IndexOf('.', StringComparison.Ordinal);
        int end = dot + 1;
        while (dot >= 0 && end < text.Length && char.IsAsciiDigit(text[end]))
        {
            end++;
        }

        return dot >= 0 && end - dot - 1 > TickDigits ? text.Remove(dot + 1 + TickDigits, end - dot - 1 - TickDigits) : text;
    }
}
