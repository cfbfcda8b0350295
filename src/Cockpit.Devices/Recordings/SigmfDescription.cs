using System.Globalization;
using System.Text.Json;
using Cockpit.Core.Formats.Recordings;

namespace Cockpit.Devices.Recordings;

/// <summary>Where samples follow on each other without a gap, from a time on.</summary>
/// <param name="SampleStart">Number of the first of them in the file.</param>
/// <param name="Utc">When it was; null where nobody says.</param>
public readonly record struct SigmfCapture(long SampleStart, DateTimeOffset? Utc);

/// <summary>Something that happened in a recording.</summary>
/// <param name="SampleStart">Number of its first sample in the file.</param>
/// <param name="Samples">How long it lasted; 0 = a moment.</param>
/// <param name="Label">What it was, at most 20 characters.</param>
/// <param name="Comment">The same for people.</param>
public readonly record struct SigmfAnnotation(long SampleStart, long Samples, string Label, string Comment);

/// <summary>Writes the description of a SigMF recording.</summary>
/// <remarks>Source: SigMF specification, version 1.0.0: captures and annotations in the order of their samples.</remarks>
public static class SigmfDescription
{
    private const string Program = "cockpit";

    /// <summary>The description as it stands in the file.</summary>
    /// <param name="layout">What the samples are.</param>
    /// <param name="captures">At least one, in order.</param>
    /// <param name="annotations">In order.</param>
    public static byte[] Of(SampleLayout layout, IReadOnlyCollection<SigmfCapture> captures, IReadOnlyCollection<SigmfAnnotation> annotations)
    {
        ArgumentNullException.ThrowIfNull(layout);
        using MemoryStream bytes = new();
        using (Utf8JsonWriter json = new(bytes, new JsonWriterOptions { Indented = true }))
        {
            json.WriteStartObject();
            WriteGlobal(json, layout);
            json.WriteStartArray("captures");
            foreach (SigmfCapture capture in captures)
            {
                Write(json, layout, capture);
            }

            json.WriteEndArray();
            json.WriteStartArray("annotations");
            foreach (SigmfAnnotation annotation in annotations)
            {
                Write(json, annotation);
            }

            json.WriteEndArray();
            json.WriteEndObject();
        }

        return bytes.ToArray();
    }

    private static void WriteGlobal(Utf8JsonWriter json, SampleLayout layout)
    {
        json.WriteStartObject("global");
        json.WriteString("core:datatype", SampleFormatText.NameOf(layout.Format));
        json.WriteNumber("core:sample_rate", layout.SampleRate);
        json.WriteString("core:version", "1.0.0");
        json.WriteNumber("core:num_channels", 1);
        json.WriteString("core:recorder", Program);
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, SampleLayout layout, SigmfCapture capture)
    {
        json.WriteStartObject();
        json.WriteNumber("core:sample_start", capture.SampleStart);
        if (layout.CentreHz is { } centre)
        {
            json.WriteNumber("core:frequency", centre);
        }

        if (capture.Utc is { } utc)
        {
            json.WriteString("core:datetime", utc.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss.fffffff'Z'", CultureInfo.InvariantCulture));
        }

        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, SigmfAnnotation annotation)
    {
        json.WriteStartObject();
        json.WriteNumber("core:sample_start", annotation.SampleStart);

        // Without a count it would hold to the end of the capture: a moment is one sample.
        json.WriteNumber("core:sample_count", Math.Max(annotation.Samples, 1));
        json.WriteString("core:generator", Program);
        json.WriteString("core:label", annotation.Label);
        json.WriteString("core:comment", annotation.Comment);
        json.WriteEndObject();
    }
}
