using System.Buffers;
using System.Globalization;
using System.Text;

namespace Cockpit.Core.Formats.Signal;

/// <summary>One column of delimited lines.</summary>
/// <param name="Key">The value; unknown = passed over.</param>
/// <param name="Factor">What its numbers are multiplied with, by the unit of its name.</param>
/// <param name="Name">As it was named.</param>
internal readonly record struct SignalColumn(SignalKey Key, double Factor, string Name)
{
    private static readonly SearchValues<char> NumberCharacters = SearchValues.Create("+-.0123456789eE");

    private const int LongestField = 64;
    private const int LongestName = 40;

    /// <summary>Whether it is a value besides the time.</summary>
    public bool IsMeasurement => Key is not (SignalKey.Unknown or SignalKey.Time);

    /// <summary>The column with a name, which may hold its unit: <c>SNR (dB)</c>, <c>offset_khz</c>, <c>Level dBFS</c>.</summary>
    public static SignalColumn Of(string name)
    {
        ReadOnlySpan<char> text = name.AsSpan().Trim(" \t\r\"'");
        if (text.Length is 0 or > LongestName)
        {
            return default;
        }

        SignalKey key = SignalVocabulary.KeyOf(text);
        ReadOnlySpan<char> unit = default;
        if (key == SignalKey.Unknown && text.LastIndexOfAny(" _([") is > 0 and var cut)
        {
            unit = text[(cut + 1)..].TrimEnd(")]");
            ReadOnlySpan<char> word = text[..cut].TrimEnd();
            key = SignalVocabulary.IsUnit(unit) ? SignalVocabulary.KeyOf(word) : SignalKey.Unknown;
        }

        return key != SignalKey.Unknown && SignalVocabulary.Fits(ref key, unit, out double factor) ? new(key, factor, text.ToString()) : default;
    }

    /// <summary>Takes one field.</summary>
    /// <param name="fields">Receives the value.</param>
    /// <param name="field">UTF-8, with the spaces around it.</param>
    /// <param name="decimalComma">Whether a comma can stand for the point.</param>
    /// <returns>What is wrong; null when all is well.</returns>
    public string? Take(ref SignalFields fields, ReadOnlySpan<byte> field, bool decimalComma)
    {
        ReadOnlySpan<byte> value = field.Trim(" \t\r\"'"u8);
        if (Key == SignalKey.Unknown || value.IsEmpty)
        {
            return null;
        }

        if (Key == SignalKey.Time)
        {
            TakeTime(ref fields, value);
            return null;
        }

        Span<char> text = stackalloc char[LongestField];
        if (value.Length > LongestField)
        {
            return $"{SignalFields.NameOf(Key)} is longer than a number";
        }

        text = text[..Encoding.UTF8.GetChars(value, text)];
        if (Key == SignalKey.Lock && SignalVocabulary.LockOf(text) is { } locked)
        {
            return fields.Set(Key, locked ? 1 : 0);
        }

        if (decimalComma)
        {
            text.Replace(',', '.');
        }

        int end = text.IndexOfAnyExcept(NumberCharacters);
        ReadOnlySpan<char> digits = end < 0 ? text : text[..end];
        ReadOnlySpan<char> unit = end < 0 ? default : text[end..].Trim();
        SignalKey key = Key;
        double factor = 1.0;
        bool good = double.TryParse(digits, NumberStyles.Float, CultureInfo.InvariantCulture, out double number) && double.IsFinite(number)
            && (unit.IsEmpty || (SignalVocabulary.IsUnit(unit) && SignalVocabulary.Fits(ref key, unit, out factor)));
        return !good
            ? SignalTokens.IsNotANumber(value) ? SignalTokens.NotANumber : $"{SignalFields.NameOf(Key)} is {SignalTokens.Quote(value)}; expected a number{(Key == SignalKey.Lock ? ", yes or no" : "")}"
            : fields.Set(key, number * (unit.IsEmpty ? Factor : factor));
    }

    // A time of day alone, or a count of seconds since the start, is no time stamp: the time of arrival stands for it.
    private static void TakeTime(ref SignalFields fields, ReadOnlySpan<byte> value)
    {
        Span<byte> text = stackalloc byte[LongestField];
        if (value.Length > LongestField)
        {
            return;
        }

        value.CopyTo(text);
        text = text[..value.Length];
        if (text.Length > 10 && text[10] == (byte)' ')
        {
            text[10] = (byte)'T';
        }

        if (UtcText.Read(text) is { Year: >= 2000 })
        {
            fields.SetTime(text);
        }
    }
}
