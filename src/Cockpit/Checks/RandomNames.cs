using System.Globalization;
using System.Text;
using Cockpit.Core.Chance;

namespace Cockpit.Checks;

/// <summary>Names as nobody should give them: every plane of Unicode, joined emoji, combining marks, both directions, control characters.</summary>
/// <param name="seed">The same seed gives the same names.</param>
public sealed class RandomNames(ulong seed)
{
    private const int LongestInPieces = 12;

    private static readonly string[] Clusters =
    [
        "\U0001F6F0", "\U0001F6F0\uFE0F", "\U0001F469\u200D\U0001F680", "\U0001F468\u200D\U0001F469\u200D\U0001F467", "\U0001F44D\U0001F3FD", "1\uFE0F\u20E3",
        "\U0001F1E6\U0001F1F9", "\U0001F1E6", "e\u0301", "a\u0300\u0301\u0302\u0303\u0304\u0305", "\u0301", "\u1112\u1161\u11AB", "\uD55C", "\u0915\u094D\u0937\u093F",
        "\u885B\u661F", "\uFF33\uFF21\uFF34", "\u0645\u0631\u062D\u0628\u0627", "\u05E9\u05DC\u05D5\u05DD", "\u202E321\u202C", "\u2067abc\u2069", "\u061C", "\u200F", "\uFEFF",
        "\u2028", "\u2029", "\u0085", "\u00AD", "\uFFFD", "\uFDD0", "\uFFFF", "\U0010FFFF", "\uE000", "\U000E0067\U000E007F", "\u0600\u0661",
        "\u001B]0;owned\u0007", "\u001B[2J", "\u009B31m", "\u009D0;owned\u009C", "\u0007", "\b", "\0", "\r", "\n", "\t", "\u007F", "\uD83D", "\uDEF0",
    ];

    private readonly Xoshiro256 _chance = new(seed);

    /// <summary>The next name: 1 to 12 pieces; not always well-formed UTF-16.</summary>
    public string Next()
    {
        StringBuilder name = new();
        for (int left = 1 + _chance.NextBelow(LongestInPieces); left > 0; left--)
        {
            _ = _chance.NextBelow(4) switch
            {
                0 => name.Append(Clusters[_chance.NextBelow(Clusters.Length)]),
                1 => name.Append((char)(' ' + _chance.NextBelow(95))),
                2 => name.Append(char.ConvertFromUtf32(Scalar(0x3000))),
                _ => name.Append(char.ConvertFromUtf32(Scalar(0x110000))),
            };
        }

        return name.ToString();
    }

    /// <summary>A text in visible form, for a report.</summary>
    public static string Visible(string text) =>
        string.Concat(text.Select(letter => letter is > ' ' and <= '~' ? letter.ToString() : string.Create(CultureInfo.InvariantCulture, $"\\u{(int)letter:X4}")));

    private int Scalar(int below)
    {
        int scalar = _chance.NextBelow(below);
        return scalar is >= 0xD800 and <= 0xDFFF ? scalar - 0x800 : scalar;
    }
}
