using System.Buffers;
using System.Buffers.Text;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization.Metadata;
using Cockpit.Core.Formats;
using Cockpit.Session.Events;

namespace Cockpit.Devices.Journal;

/// <summary>What one line of a journal holds.</summary>
/// <param name="Sequence">Its number; 0 when not even that could be read.</param>
/// <param name="Envelope">The event; null when the type is unknown or the line is damaged.</param>
/// <param name="UnknownType">The type's name when this program does not know it.</param>
/// <param name="Damage">What is wrong with the line; null when nothing is.</param>
/// <param name="Wild">What is wild in a line that is well-formed; without an event the line is passed over, with one it was mended.</param>
internal readonly record struct JournalRecord(long Sequence, Envelope? Envelope, string? UnknownType, string? Damage, string? Wild = null);

/// <summary>An event as one line of JSON with its checksum.</summary>
/// <remarks>
/// <c>{"seq":7,"elapsed_s":1.25,"utc":"…Z","source":"signal","type":"signal.measured/1","data":{…},"crc":"1a2b3c4d"}</c>: the checksum
/// is the CRC-32 of all bytes of the line before <c>,"crc":</c>, in lower-case hexadecimal.
/// </remarks>
internal static class JournalLine
{
    private const int CheckLength = 18;

    private static readonly JsonWriterOptions WriterOptions = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    private static ReadOnlySpan<byte> CheckStart => ",\"crc\":\""u8;

    /// <summary>Appends an event and its line end.</summary>
    /// <exception cref="NotSupportedException">The type of event is not in <see cref="EventTypes"/>.</exception>
    internal static void Write(IBufferWriter<byte> output, Envelope envelope)
    {
        Type type = envelope.Event.GetType();
        string name = EventTypes.NameOf(type) ?? throw new NotSupportedException($"events of type {type.Name} have no name in the journal");
        WriteChecked(output, json =>
        {
            json.WriteNumber("seq"u8, envelope.Sequence);
            json.WriteNumber("elapsed_s"u8, ExactSeconds.Of(envelope.Elapsed));
            json.WriteString("utc"u8, envelope.Utc.UtcDateTime);
            json.WriteString("source"u8, envelope.Source);
            json.WriteString("type"u8, name);
            json.WritePropertyName("data"u8);
            JsonSerializer.Serialize(json, envelope.Event, EventJson.For(type));
        });
    }

    /// <summary>Appends an object with its checksum and line end.</summary>
    internal static void WriteChecked(IBufferWriter<byte> output, Action<Utf8JsonWriter> members)
    {
        ArrayBufferWriter<byte> line = new(256);
        using (Utf8JsonWriter json = new(line, WriterOptions))
        {
            json.WriteStartObject();
            members(json);
            json.WriteEndObject();
        }

        ReadOnlySpan<byte> body = Escaped(line.WrittenSpan[..^1]);
        output.Write(body);
        output.Write(CheckStart);
        output.Write(Encoding.ASCII.GetBytes(Crc32.Of(body).ToString("x8", System.Globalization.CultureInfo.InvariantCulture)));
        output.Write("\"}\n"u8);
    }

    /// <summary>The JSON with every character escaped that a viewer obeys instead of showing: the encoder lets the bidirectional ones pass.</summary>
    private static ReadOnlySpan<byte> Escaped(ReadOnlySpan<byte> json)
    {
        if (System.Text.Ascii.IsValid(json))
        {
            return json;
        }

        string text = Encoding.UTF8.GetString(json);
        if (TextFilter.FirstHarmful(text) < 0)
        {
            return json;
        }

        StringBuilder escaped = new(text.Length + 64);
        foreach (Rune rune in text.EnumerateRunes())
        {
            if (!TextFilter.IsHarmful(rune))
            {
                escaped.Append(rune);
                continue;
            }

            foreach (char unit in rune.ToString())
            {
                escaped.Append(System.Globalization.CultureInfo.InvariantCulture, $"\\u{(int)unit:X4}");
            }
        }

        return Encoding.UTF8.GetBytes(escaped.ToString());
    }

    /// <summary>Whether the checksum at the end belongs to the line; null when it does, else what is wrong.</summary>
    internal static string? CheckProblem(ReadOnlySpan<byte> line)
    {
        if (line.Length < CheckLength || !line[^CheckLength..].StartsWith(CheckStart) || !line.EndsWith("\"}"u8))
        {
            return "it does not end in a checksum";
        }

        ReadOnlySpan<byte> digits = line.Slice(line.Length - CheckLength + CheckStart.Length, 8);
        bool good = Utf8Parser.TryParse(digits, out uint crc, out int used, 'x') && used == digits.Length && crc == Crc32.Of(line[..^CheckLength]);
        return good ? null : "its checksum does not match";
    }

    /// <summary>Reads a line without its line end. Never throws.</summary>
    internal static JournalRecord Read(ReadOnlySpan<byte> line)
    {
        if (CheckProblem(line) is { } problem)
        {
            return new(0, null, null, problem);
        }

        string member = "";
        int start = 0;
        try
        {
            return ReadMembers(line, ref member, ref start);
        }
        catch (Exception trouble) when (trouble is JsonException or InvalidOperationException or FormatException or NotSupportedException or ArgumentException or OverflowException)
        {
            string mistake = trouble is JsonException json and not EventJsonException ? LineMistake.NotJson(json) : LineMistake.NotThis(line, member, start);
            return Mistaken(mistake);
        }
    }

    private static JournalRecord Mistaken(string mistake) => new(0, null, null, "it is not an event of a journal, " + mistake);

    /// <param name="line">The line.</param>
    /// <param name="member">The member that is being read, for the sentence when it cannot be.</param>
    /// <param name="start">Where its value begins, bytes.</param>
    private static JournalRecord ReadMembers(ReadOnlySpan<byte> line, ref string member, ref int start)
    {
        long? sequence = null;
        TimeSpan? elapsed = null;
        DateTimeOffset? utc = null;
        string? source = null;
        string? type = null;
        Range data = default;
        Utf8JsonReader json = new(line);
        json.Read();
        while (json.Read() && json.TokenType == JsonTokenType.PropertyName)
        {
            member = json.GetString() ?? "";
            json.Read();
            start = (int)json.TokenStartIndex;
            switch (member)
            {
                case "seq": sequence = json.GetInt64(); break;
                case "elapsed_s": elapsed = ExactSeconds.Read(ref json); break;
                case "utc": utc = json.GetDateTimeOffset().ToUniversalTime(); break;
                case "source": source = json.GetString(); break;
                case "type": type = json.GetString(); break;
                case "data": data = SkipOver(ref json); break;
                default: json.Skip(); break;
            }
        }

        if (sequence is not { } number || elapsed is not { } since || utc is not { } instant || source is null || type is null || data.Equals(default(Range)))
        {
            return new(sequence ?? 0, null, null, "one of seq, elapsed_s, utc, source, type, data is missing");
        }

        return EventTypes.TypeOf(type) is { } known
            ? ReadData(line, data, EventJson.For(known), happened => new Envelope(number, since, instant, source, happened)) with { Sequence = number }
            : new(number, null, type, null);
    }

    private static JournalRecord ReadData(ReadOnlySpan<byte> line, Range data, JsonTypeInfo type, Func<SessionEvent, Envelope> envelope)
    {
        try
        {
            return JsonSerializer.Deserialize(line[data], type) is SessionEvent read
                ? new(0, envelope(read), null, null)
                : Mistaken(LineMistake.NotThis(line, "data", data.Start.Value));
        }
        catch (JsonException trouble)
        {
            return Mistaken(LineMistake.InData(line, data, type, trouble));
        }
    }

    private static Range SkipOver(ref Utf8JsonReader json)
    {
        int start = (int)json.TokenStartIndex;
        json.Skip();
        return start..(int)json.BytesConsumed;
    }
}
