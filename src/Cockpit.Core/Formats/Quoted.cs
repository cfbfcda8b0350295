using System.Globalization;
using System.Text;

namespace Cockpit.Core.Formats;

/// <summary>Shows a piece of somebody's input inside an error sentence.</summary>
public static class Quoted
{
    private const int Longest = 40;

    /// <summary>The text in quotes, at most 40 characters of it, with control and format characters and what lies outside the basic plane made visible.</summary>
    public static string Of(ReadOnlySpan<char> text)
    {
        var shown = new StringBuilder("'");
        foreach (char c in text[..Math.Min(text.Length, Longest)])
        {
            _ = char.IsSurrogate(c) || TextFilter.IsHarmful(new Rune(c))
                ? shown.Append(CultureInfo.InvariantCulture, $"\\u{(int)c:x4}")
                : shown.Append(c);
        }

        return shown.Append(text.Length > Longest ? "...'" : "'").ToString();
    }
}
