using System.Globalization;

namespace Cockpit.Core.Formats.Elements;

/// <summary>The international designator: "26010A" in a TLE, "2026-010A" in an OMM and here.</summary>
/// <remarks>Source: CCSDS 502.0-B-3, OBJECT_ID; two-digit years from 57 on are of the 20th century, as in the TLE's epoch.</remarks>
internal static class Designator
{
    /// <summary>Full form of the TLE's form; text of another sense stays as it is.</summary>
    internal static string FromTle(ReadOnlySpan<char> text)
    {
        if (text.Length is < 6 or > 8 || text[..5].ContainsAnyExceptInRange('0', '9') || text[5..].ContainsAnyExceptInRange('A', 'Z'))
        {
            return text.ToString();
        }

        string century = int.Parse(text[..2], NumberStyles.None, CultureInfo.InvariantCulture) < 57 ? "20" : "19";
        return $"{century}{text[..2]}-{text[2..]}";
    }

    /// <summary>At most eight characters for columns 10 to 17; what does not fit is left out.</summary>
    internal static string ToTle(string full)
    {
        bool usual = full.Length is >= 9 and <= 11 && full[4] == '-';
        string text = usual ? full[2..4] + full[5..] : full;
        return text.Length <= 8 ? text : "";
    }
}
