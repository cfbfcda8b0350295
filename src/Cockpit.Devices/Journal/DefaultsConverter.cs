using System.Buffers;
using System.Text.Json;
using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;

namespace Cockpit.Devices.Journal;

/// <summary>Reads a record so that a field that an older journal does not have keeps the default of its record, not zero.</summary>
/// <remarks>
/// Generated JSON code gives every init-only property a value of its own and so undoes initialisers. Here the missing fields are
/// written in from an instance that has them, then the whole is read; no reflection, so the native program does the same.
/// </remarks>
/// <typeparam name="T">The record.</typeparam>
internal sealed class DefaultsConverter<T> : JsonConverter<T>
{
    private readonly JsonTypeInfo<T> _plain;
    private readonly HashSet<string> _required;
    private readonly Dictionary<string, JsonElement> _defaults;

    /// <summary>Prepares to read a record.</summary>
    /// <param name="defaults">An instance with the defaults; what it holds in required fields is not used.</param>
    /// <param name="plain">How the record is written and read without defaults.</param>
    internal DefaultsConverter(T defaults, JsonTypeInfo<T> plain)
    {
        _plain = plain;
        _required = [.. plain.Properties.Where(property => property.IsRequired).Select(property => property.Name)];
        _defaults = JsonSerializer.SerializeToElement(defaults, plain).EnumerateObject()
            .Where(field => !_required.Contains(field.Name))
            .ToDictionary(field => field.Name, field => field.Value, StringComparer.Ordinal);
    }

    public override T? Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options)
    {
        using JsonDocument given = JsonDocument.ParseValue(ref reader);
        if (given.RootElement.ValueKind != JsonValueKind.Object)
        {
            throw new EventJsonException("an object was expected");
        }

        if (_required.FirstOrDefault(name => !given.RootElement.TryGetProperty(name, out _)) is { } missing)
        {
            throw new EventJsonException($"{missing} is missing");
        }

        ArrayBufferWriter<byte> whole = new();
        using (Utf8JsonWriter writer = new(whole))
        {
            writer.WriteStartObject();
            foreach (JsonProperty field in given.RootElement.EnumerateObject())
            {
                field.WriteTo(writer);
            }

            foreach ((string name, JsonElement value) in _defaults)
            {
                if (!given.RootElement.TryGetProperty(name, out _))
                {
                    writer.WritePropertyName(name);
                    value.WriteTo(writer);
                }
            }

            writer.WriteEndObject();
        }

        return JsonSerializer.Deserialize(whole.WrittenSpan, _plain);
    }

    public override void Write(Utf8JsonWriter writer, T value, JsonSerializerOptions options) => JsonSerializer.Serialize(writer, value, _plain);
}
