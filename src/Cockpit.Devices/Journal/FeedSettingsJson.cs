using System.Text.Json;
using System.Text.Json.Serialization;
using Cockpit.Session.Events;

namespace Cockpit.Devices.Journal;

/// <summary>A feed of the settings: <c>{"name":"level","role":"signal"}</c>.</summary>
/// <remarks>The first journals (<c>session.opened/1</c>) hold the name alone: a feed whose name began with "signal" brought the level.</remarks>
internal sealed class FeedSettingsJson : JsonConverter<FeedSettings>
{
    public override FeedSettings Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options)
    {
        if (reader.TokenType == JsonTokenType.String)
        {
            string alone = reader.GetString() ?? "";
            return new FeedSettings(alone, RoleOf(alone));
        }

        if (reader.TokenType != JsonTokenType.StartObject)
        {
            throw new EventJsonException("a feed was expected: a name, or an object with name and role");
        }

        string? name = null;
        FeedRole role = FeedRole.Other;
        while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
        {
            string member = reader.GetString() ?? "";
            reader.Read();
            switch (member)
            {
                case "name": name = Word(ref reader); break;

                // A role that only a newer program knows costs its meaning, not the session.
                case "role": role = Enum.TryParse(Word(ref reader), ignoreCase: true, out FeedRole known) ? known : FeedRole.Other; break;
                default: reader.Skip(); break;
            }
        }

        return new FeedSettings(name ?? throw new EventJsonException("a feed has no name"), role);
    }

    public override void Write(Utf8JsonWriter writer, FeedSettings value, JsonSerializerOptions options)
    {
        writer.WriteStartObject();
        writer.WriteString("name"u8, value.Name);
        writer.WriteString("role"u8, value.Role.ToString().ToLowerInvariant());
        writer.WriteEndObject();
    }

    private static string? Word(ref Utf8JsonReader reader) => reader.TokenType is JsonTokenType.String
        ? reader.GetString()
        : throw new EventJsonException("name and role of a feed are words in quotes");

    private static FeedRole RoleOf(string name) => name.StartsWith(Sources.Signal, StringComparison.Ordinal) ? FeedRole.Signal : FeedRole.Other;
}
