using System.Buffers;
using System.Text.Json;

namespace Cockpit.Devices.Journal;

/// <summary>The first line of a journal.</summary>
/// <param name="Format">Version of the format; this program writes <see cref="CurrentFormat"/>.</param>
/// <param name="ProgramVersion">Version of the program that wrote it.</param>
/// <param name="CreatedUtc">When it was begun, UTC by the system clock.</param>
public sealed record JournalHeader(int Format, string ProgramVersion, DateTimeOffset CreatedUtc)
{
    /// <summary>The version of the format that this program writes and reads.</summary>
    public const int CurrentFormat = 1;

    internal void Write(IBufferWriter<byte> output) => JournalLine.WriteChecked(output, json =>
    {
        json.WriteNumber("cockpit_journal"u8, Format);
        json.WriteString("program"u8, ProgramVersion);
        json.WriteString("created_utc"u8, CreatedUtc.UtcDateTime);
    });

    /// <summary>Reads the first line; null when it is not the first line of a journal.</summary>
    internal static JournalHeader? Read(ReadOnlySpan<byte> line)
    {
        try
        {
            JsonElement root = JsonElement.Parse(line);
            return root.ValueKind == JsonValueKind.Object
                && root.TryGetProperty("cockpit_journal"u8, out JsonElement format)
                && root.TryGetProperty("program"u8, out JsonElement program)
                && root.TryGetProperty("created_utc"u8, out JsonElement created)
                    ? new JournalHeader(format.GetInt32(), program.GetString() ?? "", created.GetDateTimeOffset().ToUniversalTime())
                    : null;
        }
        catch (Exception trouble) when (trouble is JsonException or InvalidOperationException or FormatException)
        {
            return null;
        }
    }
}
