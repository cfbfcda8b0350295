using System.Text.Json;
using System.Text.Json.Serialization;
using Cockpit.Session.Events;

namespace Cockpit.Devices.Journal;

/// <summary>The kind of a session as one small word, "live" or "demo".</summary>
internal sealed class SessionKindJson : JsonConverter<SessionKind>
{
    public override SessionKind Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options)
    {
        string word = reader.TokenType == JsonTokenType.String
            ? reader.GetString() ?? ""
            : throw new EventJsonException("the kind of the session was expected, like \"live\"");

        // A kind that only another program knows costs its meaning, not the session.
        return Array.Find(Enum.GetValues<SessionKind>(), kind => string.Equals(WordOf(kind), word, StringComparison.Ordinal));
    }

    public override void Write(Utf8JsonWriter writer, SessionKind value, JsonSerializerOptions options) => writer.WriteStringValue(WordOf(value));

    private static string WordOf(SessionKind kind) => kind.ToString().ToLowerInvariant();
}
