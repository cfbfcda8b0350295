using System.Globalization;

namespace Cockpit.Core.Formats;

/// <summary>A number with an optional unit written behind it, invariant culture.</summary>
public static class NumberText
{
    /// <summary>Splits "12.5deg" into 12.5 and "deg"; false where the text does not begin with a finite number.</summary>
    public static bool TrySplit(ReadOnlySpan<char> text, out double number, out string unit)
    {
        text = text.Trim();
        int end = text.Length;
        while (end > 0 && !char.IsAsciiDigit(text[end - 1]) && text[end - 1] != '.')
        {
            end--;
        }

        unit = text[end..].Trim().ToString();
        return TryRead(text[..end], out number);
    }

    /// <summary>Reads a finite number that fills the whole text.</summary>
    public static bool TryRead(ReadOnlySpan<char> text, out double number) =>
        double.TryParse(text.Trim(), NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint | NumberStyles.AllowExponent, CultureInfo.InvariantCulture, out number)
        && double.IsFinite(number);
}
