using System.Buffers;
using System.Text;
using System.Text.Json;

namespace Cockpit.Reports;

/// <summary>Two sessions side by side as one JSON object.</summary>
public static class ComparisonJson
{
    /// <summary>The object, indented, with a newline at its end.</summary>
    /// <param name="both">The two.</param>
    public static string Of(Comparison both)
    {
        ArgumentNullException.ThrowIfNull(both);
        var buffer = new ArrayBufferWriter<byte>();
        using (var json = new Utf8JsonWriter(buffer, new JsonWriterOptions { Indented = true, NewLine = "\n" }))
        {
            json.WriteStartObject();
            json.WriteBoolean("same_pass", both.SamePass);
            json.WriteStartArray("differences");
            foreach (string difference in both.Differences)
            {
                json.WriteStringValue(difference);
            }

            json.WriteEndArray();
            Lines(json, both.Lines);
            Session(json, "a", both.A);
            Session(json, "b", both.B);
            json.WriteEndObject();
        }

        return Encoding.UTF8.GetString(buffer.WrittenSpan) + "\n";
    }

    private static void Lines(Utf8JsonWriter json, Both? lines)
    {
        if (lines is null)
        {
            json.WriteNull("both");
            return;
        }

        json.WriteStartObject("both");
        json.WriteNumber("sent", lines.Sent);
        json.WriteNumber("lost_by_a", lines.LostByA);
        json.WriteNumber("lost_by_b", lines.LostByB);
        json.WriteNumber("lost_by_both", lines.LostByBoth);
        json.WriteEndObject();
    }

    private static void Session(Utf8JsonWriter json, string name, ReviewedSession session)
    {
        json.WriteStartObject(name);
        json.WriteString("session", session.Name);
        json.WritePropertyName("review");
        ReviewJson.Write(json, session.Review);
        json.WriteEndObject();
    }
}
