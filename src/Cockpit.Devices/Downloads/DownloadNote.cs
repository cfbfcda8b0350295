using System.Text.Json;

namespace Cockpit.Devices.Downloads;

/// <summary>What is kept of a download beside its file, so that the server need not send the same again.</summary>
/// <param name="Address">Where it came from.</param>
/// <param name="AskedUtc">When the server last answered, with whatever.</param>
/// <param name="EntityTag">What the server called that version (RFC 9110, 8.8.3); null where it said nothing.</param>
/// <param name="LastModified">When it last changed there, as the server wrote it (RFC 9110, 8.8.2); null where it said nothing.</param>
internal sealed record DownloadNote(string Address, DateTimeOffset AskedUtc, string? EntityTag, string? LastModified)
{
    private const int MostBytes = 16 * 1024;

    /// <summary>The note beside a file; null where there is none that can be read: it is never needed.</summary>
    public static DownloadNote? Beside(string file)
    {
        try
        {
            FileInfo note = new(PathOf(file));
            if (!note.Exists || note.Length > MostBytes)
            {
                return null;
            }

            using JsonDocument json = JsonDocument.Parse(File.ReadAllText(note.FullName));
            JsonElement root = json.RootElement;
            return new DownloadNote(
                root.GetProperty("address").GetString() ?? "", root.GetProperty("asked_utc").GetDateTimeOffset(), Text(root, "entity_tag"), Text(root, "last_modified"));
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException or JsonException or KeyNotFoundException or InvalidOperationException or FormatException)
        {
            return null;
        }
    }

    /// <summary>Writes it; one that cannot be written costs a download, no more.</summary>
    public void WriteBeside(string file)
    {
        try
        {
            using FileStream stream = File.Create(PathOf(file));
            using Utf8JsonWriter json = new(stream, new JsonWriterOptions { Indented = true });
            json.WriteStartObject();
            json.WriteString("address", Address);
            json.WriteString("asked_utc", AskedUtc);
            json.WriteString("entity_tag", EntityTag);
            json.WriteString("last_modified", LastModified);
            json.WriteEndObject();
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            // The file itself is there.
        }
    }

    private static string PathOf(string file) => file + ".fetched";

    private static string? Text(JsonElement root, string name) =>
        root.TryGetProperty(name, out JsonElement value) && value.ValueKind == JsonValueKind.String ? value.GetString() : null;
}
