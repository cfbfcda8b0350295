using System.Buffers;
using System.Globalization;
using System.Text.Json;

namespace Cockpit.Core.Formats.Signal;

/// <summary>JSON as receivers send it: objects within objects, words of their own, numbers as text; the last name of the path counts.</summary>
internal static class FreeJson
{
    private static readonly SearchValues<char> NumberCharacters = SearchValues.Create("+-.0123456789eE");

    /// <summary>Reads what is known in a document; nothing when it is not JSON.</summary>
    /// <param name="fields">Receives it.</param>
    /// <param name="text">UTF-8.</param>
    /// <param name="names">Receives what the values are called; null where nobody asks.</param>
    /// <returns>False when it is not one whole document.</returns>
    public static bool Read(ref SignalFields fields, ReadOnlySpan<byte> text, SignalNames? names = null)
    {
        Utf8JsonReader json = new(text);
        int seen = 0;
        SignalKey key = SignalKey.Unknown;
        bool other = false;
        string name = "";
        try
        {
            while (json.Read())
            {
                if (json.TokenType == JsonTokenType.PropertyName)
                {
                    name = json.GetString() ?? "";
                    key = SignalVocabulary.KeyOf(name);
                    other = SignalVocabulary.IsOther(name);
                }
                else if (json.TokenType == JsonTokenType.StartObject && other)
                {
                    // {"noise": {"level": ...}} is no level.
                    json.Skip();
                }
                else
                {
                    if (Take(ref fields, ref json, key, ref seen) is { } taken)
                    {
                        names?.Add(taken, name);
                    }

                    key = SignalKey.Unknown;
                }
            }

            return true;
        }
        catch (Exception trouble) when (trouble is JsonException or InvalidOperationException)
        {
            return false;
        }
    }

    private static SignalKey? Take(ref SignalFields fields, ref Utf8JsonReader json, SignalKey key, ref int seen)
    {
        int bit = 1 << (int)key;
        if (key is SignalKey.Unknown or SignalKey.Time || (seen & bit) != 0)
        {
            return null;
        }

        double? value = json.TokenType switch
        {
            JsonTokenType.Number => json.GetDouble(),
            JsonTokenType.True when key == SignalKey.Lock => 1.0,
            JsonTokenType.False when key == SignalKey.Lock => 0.0,
            JsonTokenType.String when key == SignalKey.Lock => SignalVocabulary.LockOf(json.GetString()) is { } locked ? (locked ? 1.0 : 0.0) : null,
            JsonTokenType.String => NumberOf(json.GetString() ?? "", ref key),
            _ => null,
        };
        if (value is { } number && SignalFields.InRange(key, number) && fields.Set(key, number) is null)
        {
            seen |= bit;
            return key;
        }

        return null;
    }

    private static double? NumberOf(string text, ref SignalKey key)
    {
        int end = text.AsSpan().IndexOfAnyExcept(NumberCharacters);
        ReadOnlySpan<char> digits = end < 0 ? text : text.AsSpan(0, end);
        ReadOnlySpan<char> unit = end < 0 ? default : text.AsSpan(end).Trim();
        return double.TryParse(digits, NumberStyles.Float, CultureInfo.InvariantCulture, out double number)
            && double.IsFinite(number) && SignalVocabulary.Fits(ref key, unit, out double factor) ? number * factor : null;
    }
}
