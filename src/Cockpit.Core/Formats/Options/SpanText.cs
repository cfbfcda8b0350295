namespace Cockpit.Core.Formats.Options;

/// <summary>Reads a length of time such as 10s, 30m, 72h, 3d or 1h30m.</summary>
public static class SpanText
{
    private static readonly TimeSpan Longest = TimeSpan.FromDays(3660);

    /// <summary>Reads a positive span of at most ten years.</summary>
    /// <param name="text">Numbers, each with ms, s, m, h or d behind it.</param>
    /// <param name="source">What the text belongs to, for the error.</param>
    public static Parsed<TimeSpan> Read(string text, string source)
    {
        ReadOnlySpan<char> rest = text.AsSpan().Trim();
        double seconds = 0.0;
        bool good = rest.Length > 0;
        while (good && rest.Length > 0)
        {
            int numberEnd = CountWhile(rest, c => char.IsAsciiDigit(c) || c == '.');
            int unitEnd = numberEnd + CountWhile(rest[numberEnd..], char.IsAsciiLetter);
            double unit = SecondsOf(rest[numberEnd..unitEnd]);
            good = NumberText.TryRead(rest[..numberEnd], out double number) && unit > 0.0;
            seconds += number * unit;
            rest = rest[unitEnd..].TrimStart();
        }

        if (!good || seconds <= 0.0)
        {
            return new ParseError(source, 0, 0, $"{Quoted.Of(text)} is not a length of time; write it like 10s, 30m, 72h or 3d");
        }

        return seconds <= Longest.TotalSeconds
            ? TimeSpan.FromTicks((long)Math.Round(seconds * TimeSpan.TicksPerSecond))
            : new ParseError(source, 0, 0, $"{Quoted.Of(text)} is too long; at most 3660d can be asked for");
    }

    private static int CountWhile(ReadOnlySpan<char> text, Func<char, bool> wanted)
    {
        int count = 0;
        while (count < text.Length && wanted(text[count]))
        {
            count++;
        }

        return count;
    }

    private static double SecondsOf(ReadOnlySpan<char> unit) => unit switch
    {
        "ms" => 0.001,
        "s" => 1.0,
        "m" or "min" => 60.0,
        "h" => 3600.0,
        "d" => 86400.0,
        _ => 0.0,
    };
}
