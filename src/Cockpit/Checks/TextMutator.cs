using System.Collections.Immutable;
using System.Text;
using Cockpit.Core.Chance;

namespace Cockpit.Checks;

/// <summary>Damages texts in the ways files get damaged, and in the ways that parsers dislike; seeded, so that every case comes back.</summary>
/// <param name="samples">Good texts; pieces of one may be put into another.</param>
/// <param name="seed">Where the sequence starts.</param>
public sealed class TextMutator(ImmutableArray<string> samples, ulong seed)
{
    private const int LongestRun = 6000;
    private static readonly ImmutableArray<string> Nasty =
    [
        "\0", "\u0007", "\uFFFD", "\uD800", "\uFEFF", "\r", "\r\n", "\n\n", "\t", "é", "NaN", "Infinity", "-0", "1e999", "1e-999", "-1", "99999999999999999999",
        "0x10", "[", "]", "{", "}", "<", ">", "</omm>", "<omm>", "<!DOCTYPE a>", "<![CDATA[", "]]>", "<!--", "-->", "&amp;", "&#0;", "&x;", "\"", "\\", "\\u0000",
        "\\uD800", "=", ",", ",,", "#", "1 ", "2 ", "0 ", "COMMENT ", "CCSDS_OMM_VERS = 3.0\n", "null", "true", "-", "+", ".", "T", "Z", "[deg]",
    ];

    private readonly Xoshiro256 _chance = new(seed);

    /// <summary>The next damaged text: one to six injuries to one of the samples.</summary>
    public string Next()
    {
        var text = new StringBuilder(Pick(samples));
        for (int k = _chance.NextBelow(6); k >= 0; k--)
        {
            Injure(text);
        }

        return text.ToString();
    }

    private void Injure(StringBuilder text)
    {
        int at = _chance.NextBelow(text.Length + 1);
        switch (_chance.NextBelow(9))
        {
            case 0 when at < text.Length:
                text[at] = (char)(text[at] ^ (1 << _chance.NextBelow(8)));
                break;
            case 1 when at < text.Length:
                text[at] = (char)('0' + _chance.NextBelow(10));
                break;
            case 2:
                text.Insert(at, Pick(Nasty));
                break;
            case 3:
                text.Remove(at, _chance.NextBelow(Math.Min(80, text.Length - at) + 1));
                break;
            case 4:
                text.Length = at;
                break;
            case 5:
                int length = _chance.NextBelow(Math.Min(300, text.Length - at) + 1);
                text.Insert(_chance.NextBelow(text.Length + 1), text.ToString(at, length));
                break;
            case 6:
                string other = Pick(samples);
                int from = _chance.NextBelow(other.Length);
                text.Insert(at, other.AsSpan(from, _chance.NextBelow(other.Length - from)));
                break;
            case 7 when _chance.NextBelow(20) == 0:
                text.Insert(at, Pick(Nasty)[..1], _chance.NextBelow(LongestRun));
                break;
            default:
                text.Insert(at, (char)_chance.NextBelow(0x250));
                break;
        }
    }

    private string Pick(ImmutableArray<string> list) => list[_chance.NextBelow(list.Length)];
}
