using System.Buffers;
using System.Collections.Immutable;
using System.Text.Json;
using Cockpit.Core.Sound;
using Cockpit.Session.Handset;

namespace Cockpit.Devices.Phone;

/// <summary>Writes what goes to the page.</summary>
internal static class GuidanceJson
{
    /// <summary>The guidance of one moment.</summary>
    public static byte[] Of(HandsetGuidance guidance, long number)
    {
        ArrayBufferWriter<byte> bytes = new(512);
        using (Utf8JsonWriter json = new(bytes))
        {
            json.WriteStartObject();
            json.WriteString("t", "g");
            json.WriteNumber("n", number);
            json.WriteString("word", guidance.Word);
            Number(json, "right", guidance.Right, 1);
            Number(json, "up", guidance.Up, 1);
            Number(json, "total", guidance.Total, 1);
            Number(json, "arrow", guidance.Arrow, 1);
            json.WriteBoolean("flat", guidance.Flat);
            json.WriteString("text", guidance.Text);
            Number(json, "in", guidance.SecondsLeft, 1);
            Number(json, "ring", guidance.Ring, 3);
            json.WriteString("signal", guidance.Signal);
            json.WriteBoolean("lost", guidance.Lost);
            json.WriteString("cue", guidance.Cue);
            json.WriteNumber("c", guidance.CueCount);
            Notes(json, guidance.Tones);
            json.WriteString("say", guidance.Say);
            json.WriteString("note", guidance.Note);
            json.WriteStartArray("buttons");
            foreach (string button in guidance.Buttons)
            {
                json.WriteStringValue(button);
            }

            json.WriteEndArray();
            json.WriteEndObject();
        }

        return bytes.WrittenSpan.ToArray();
    }

    /// <summary>The answer to the first word of a phone that is let in.</summary>
    public static byte[] Paired(string key, string name)
    {
        ArrayBufferWriter<byte> bytes = new(128);
        using (Utf8JsonWriter json = new(bytes))
        {
            json.WriteStartObject();
            json.WriteString("t", "paired");
            json.WriteString("key", key);
            json.WriteString("name", name);
            json.WriteEndObject();
        }

        return bytes.WrittenSpan.ToArray();
    }

    /// <summary>The end of a connection that has no codes of its own.</summary>
    public static byte[] End(int code)
    {
        ArrayBufferWriter<byte> bytes = new(64);
        using (Utf8JsonWriter json = new(bytes))
        {
            json.WriteStartObject();
            json.WriteString("t", "end");
            json.WriteNumber("code", code);
            json.WriteEndObject();
        }

        return bytes.WrittenSpan.ToArray();
    }

    /// <summary>A note each: start and length in ms, Hz, dB re the word, 1 where it is rich in partials.</summary>
    private static void Notes(Utf8JsonWriter json, ImmutableArray<Tone> tones)
    {
        json.WriteStartArray("notes");
        foreach (Tone tone in tones)
        {
            json.WriteStartArray();
            json.WriteNumberValue(Math.Round(tone.StartMs));
            json.WriteNumberValue(Math.Round(tone.LengthMs));
            json.WriteNumberValue(Math.Round(tone.FrequencyHz));
            json.WriteNumberValue(Math.Round(tone.LevelDb));
            json.WriteNumberValue(tone.Timbre == Timbre.Rich ? 1 : 0);
            json.WriteEndArray();
        }

        json.WriteEndArray();
    }

    private static void Number(Utf8JsonWriter json, string name, double? value, int digits)
    {
        if (value is { } number && double.IsFinite(number))
        {
            json.WriteNumber(name, Math.Round(number, digits));
        }
        else
        {
            json.WriteNull(name);
        }
    }
}
