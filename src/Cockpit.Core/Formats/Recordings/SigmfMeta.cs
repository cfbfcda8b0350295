using System.Text.Json;
using Cockpit.Core.Dsp;
using Cockpit.Core.Formats.Options;

namespace Cockpit.Core.Formats.Recordings;

/// <summary>The description file of a SigMF recording (NAME.sigmf-meta beside NAME.sigmf-data).</summary>
/// <remarks>Source: the SigMF specification, version 1. Only the first capture is used: nothing of it holds for the next.</remarks>
public static class SigmfMeta
{
    /// <summary>Ending of the description.</summary>
    public const string MetaEnding = ".sigmf-meta";

    /// <summary>Ending of the samples.</summary>
    public const string DataEnding = ".sigmf-data";

    /// <summary>Longest description that is read.</summary>
    public const int MostBytes = 16 << 20;

    /// <summary>Reads a description.</summary>
    /// <param name="json">The file, UTF-8.</param>
    /// <param name="source">Its name, for the error.</param>
    public static Parsed<SampleLayout> Read(ReadOnlyMemory<byte> json, string source)
    {
        try
        {
            using JsonDocument document = JsonDocument.Parse(json, new JsonDocumentOptions { MaxDepth = 32 });
            return Read(document.RootElement, source);
        }
        catch (JsonException e)
        {
            return new ParseError(
                source, (int)(e.LineNumber ?? -1) + 1, (int)(e.BytePositionInLine ?? -1) + 1, "it is not the JSON of a SigMF description; record it again, or give format and rate of the .sigmf-data file yourself");
        }
    }

    private static Parsed<SampleLayout> Read(JsonElement root, string source)
    {
        if (Member(root, "global") is not { } global)
        {
            return new ParseError(source, 0, 0, "there is no object \"global\"; it is not a SigMF description");
        }

        if (Text(global, "core:datatype") is not { } datatype)
        {
            return new ParseError(source, 0, 0, "global has no core:datatype; write one like \"ci16_le\"");
        }

        if (datatype.StartsWith('r'))
        {
            return new ParseError(source, 0, 0, $"core:datatype {Quoted.Of(datatype)} is real; only complex samples (I and Q) can be used");
        }

        if (!SampleFormatText.Read(datatype, source).Try(out SampleFormat format, out ParseError? error))
        {
            return error;
        }

        double rate = Number(global, "core:sample_rate") ?? 0;
        if (rate is not (>= SampleLayout.LeastRate and <= SampleLayout.MostRate))
        {
            return new ParseError(source, 0, 0, "global has no core:sample_rate from 100000 to 40000000");
        }

        if (Number(global, "core:num_channels") is > 1)
        {
            return new ParseError(source, 0, 0, "it has more than one channel (core:num_channels); record one channel only");
        }

        return WithCapture(new SampleLayout(format, rate), root, source);
    }

    private static Parsed<SampleLayout> WithCapture(SampleLayout layout, JsonElement root, string source)
    {
        if (!root.TryGetProperty("captures", out JsonElement captures) || captures.ValueKind != JsonValueKind.Array || captures.GetArrayLength() == 0
            || captures[0] is not { ValueKind: JsonValueKind.Object } first)
        {
            return layout;
        }

        double header = Number(first, "core:header_bytes") ?? 0;
        double before = Number(first, "core:sample_start") ?? 0;
        if (header is not (>= 0 and <= 1 << 20) || before is not (>= 0 and <= 1e15))
        {
            return new ParseError(source, 0, 0, "the first capture has no sensible core:header_bytes or core:sample_start");
        }

        double? centre = Number(first, "core:frequency");
        DateTimeOffset? start = null;
        if (Text(first, "core:datetime") is { } datetime)
        {
            if (!InstantText.Read(datetime, source).Try(out DateTimeOffset instant, out ParseError? error))
            {
                return error;
            }

            start = instant.AddSeconds(-before / layout.SampleRate);
        }

        return layout with { Offset = (long)header, CentreHz = centre is > 0 and <= 1e12 ? centre : null, Start = start };
    }

    private static JsonElement? Member(JsonElement element, string name) =>
        element.ValueKind == JsonValueKind.Object && element.TryGetProperty(name, out JsonElement member) && member.ValueKind == JsonValueKind.Object ? member : null;

    private static string? Text(JsonElement element, string name) =>
        element.TryGetProperty(name, out JsonElement member) && member.ValueKind == JsonValueKind.String ? member.GetString() : null;

    private static double? Number(JsonElement element, string name) =>
        element.TryGetProperty(name, out JsonElement member) && member.ValueKind == JsonValueKind.Number && member.TryGetDouble(out double number) ? number : null;
}
