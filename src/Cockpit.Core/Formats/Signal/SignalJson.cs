using System.Text.Json;

namespace Cockpit.Core.Formats.Signal;

/// <summary>A signal record as one JSON object (RFC 8259).</summary>
internal static class SignalJson
{
    /// <summary>Reads the object; the offset in bytes and the mistake, or no mistake.</summary>
    internal static (int At, string? Problem) Read(ref SignalFields fields, ReadOnlySpan<byte> text)
    {
        Utf8JsonReader json = new(text);
        try
        {
            json.Read();
            while (json.Read() && json.TokenType != JsonTokenType.EndObject)
            {
                SignalKey key = KeyOf(ref json);
                json.Read();
                int at = (int)json.TokenStartIndex;
                if (key == SignalKey.Unknown)
                {
                    json.Skip();
                }
                else if (Take(ref fields, key, ref json, text) is { } problem)
                {
                    return (at, problem);
                }
            }

            // Anything after the object makes the reader complain.
            json.Read();
            return default;
        }
        catch (JsonException trouble)
        {
            int at = (int)Math.Clamp(trouble.BytePositionInLine ?? 0, 0, text.Length);
            return (at, $"not one complete JSON object, found {SignalTokens.Quote(text[at..])}");
        }
    }

    private static SignalKey KeyOf(ref Utf8JsonReader json)
    {
        for (SignalKey key = SignalKey.Time; key <= SignalKey.Press; key++)
        {
            if (json.ValueTextEquals(SignalFields.Utf8NameOf(key)))
            {
                return key;
            }
        }

        return SignalKey.Unknown;
    }

    /// <summary>Takes one value; JSON null stands for a key that is not there.</summary>
    private static string? Take(ref SignalFields fields, SignalKey key, ref Utf8JsonReader json, ReadOnlySpan<byte> text) => json.TokenType switch
    {
        JsonTokenType.Null => null,
        JsonTokenType.Number when key == SignalKey.Time => fields.SetTime(json.ValueSpan),
        JsonTokenType.Number => fields.Set(key, json.GetDouble()),
        JsonTokenType.String when key == SignalKey.Time => fields.SetTime(json.ValueSpan),
        JsonTokenType.String when key == SignalKey.Press => fields.SetPressed(json.ValueSpan),
        JsonTokenType.True when key == SignalKey.Lock => fields.Set(key, 1),
        JsonTokenType.False when key == SignalKey.Lock => fields.Set(key, 0),
        _ => $"{SignalFields.NameOf(key)} has a value of the wrong kind, found {SignalTokens.Quote(text[(int)json.TokenStartIndex..])}",
    };
}
