using System.Text;

namespace Cockpit.Calendars;

/// <summary>Folds the lines of a calendar so that none has more than 75 octets and no character is torn (RFC 5545, 3.1).</summary>
/// <remarks>The calendar library folds between the halves of a surrogate pair; a name with an emoji could then not be written at all.</remarks>
internal static class FoldedLines
{
    private const int MostOctets = 75;
    private const string Fold = "\r\n ";

    /// <summary>The same content, folded anew.</summary>
    public static string Of(string calendar)
    {
        StringBuilder folded = new(calendar.Length + 64);
        int octets = 0;
        foreach (Rune rune in calendar.Replace(Fold, "", StringComparison.Ordinal).EnumerateRunes())
        {
            bool endsLine = rune.Value is '\r' or '\n';
            if (!endsLine && octets + rune.Utf8SequenceLength > MostOctets)
            {
                folded.Append(Fold);
                octets = 1;
            }

            folded.Append(rune);
            octets = endsLine ? 0 : octets + rune.Utf8SequenceLength;
        }

        return folded.ToString();
    }
}
