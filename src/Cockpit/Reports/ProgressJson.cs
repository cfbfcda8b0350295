using System.Buffers;
using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using System.Text.Json;
using Cockpit.Session.Review;

namespace Cockpit.Reports;

/// <summary>The comparison of passes as one JSON object.</summary>
public static class ProgressJson
{
    /// <summary>The object, indented, with a newline at its end.</summary>
    /// <param name="progress">The comparison.</param>
    public static string Of(Progress progress)
    {
        ArgumentNullException.ThrowIfNull(progress);
        var buffer = new ArrayBufferWriter<byte>();
        using (var json = new Utf8JsonWriter(buffer, new JsonWriterOptions { Indented = true, NewLine = "\n" }))
        {
            json.WriteStartObject();
            Passes(json, progress);
            Figures(json, progress);
            Groups(json, "by_top_elevation", progress.ByTop);
            Groups(json, "by_date", progress.ByDate);
            json.WriteEndObject();
        }

        return Encoding.UTF8.GetString(buffer.WrittenSpan) + "\n";
    }

    private static void Passes(Utf8JsonWriter json, Progress progress)
    {
        json.WriteStartArray("passes");
        foreach (ProgressPass pass in progress.Passes)
        {
            json.WriteStartObject();
            json.WriteString("from_utc", pass.FromUtc.ToString("yyyy-MM-dd'T'HH:mm:ss.fff'Z'", CultureInfo.InvariantCulture));
            json.WriteString("satellite", pass.Satellite);
            json.WriteString("kind", pass.Kind);
            Number(json, "top_deg", pass.TopDegrees);
            json.WriteNumber("sent", pass.Sent);
            json.WriteNumber("received", pass.Received);
            Number(json, "share_percent", pass.SharePercent);
            Spread(json, "reaction_s", pass.ReactionSeconds);
            Spread(json, "amount", pass.Amount);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void Figures(Utf8JsonWriter json, Progress progress)
    {
        json.WriteStartArray("figures");
        foreach (ProgressFigure figure in progress.Figures)
        {
            json.WriteStartObject();
            json.WriteString("name", figure.Name);
            json.WriteString("unit", figure.Unit);
            Number(json, "mean", figure.Mean);
            Number(json, "sd", figure.Deviation);
            json.WriteNumber("passes", figure.Points.Length);
            Number(json, "change_a_session", figure.Trend?.Slope);
            Number(json, "change_low_95", figure.Trend?.Low);
            Number(json, "change_high_95", figure.Trend?.High);
            json.WriteString("verdict", figure.Better switch { true => "better", false => "worse", null => "not carried" });
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void Groups(Utf8JsonWriter json, string name, ImmutableArray<ProgressGroup> groups)
    {
        json.WriteStartArray(name);
        foreach (ProgressGroup group in groups)
        {
            json.WriteStartObject();
            json.WriteString("name", group.Name);
            json.WriteNumber("passes", group.Passes);
            Number(json, "share_percent", group.Mean);
            Number(json, "share_sd_percent", group.Deviation);
            Number(json, "reaction_s", group.ReactionSeconds);
            Number(json, "amount", group.Amount);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void Spread(Utf8JsonWriter json, string name, Spread? spread)
    {
        if (spread is not { } known)
        {
            json.WriteNull(name);
            return;
        }

        json.WriteStartObject(name);
        Number(json, "value", known.Value);
        Number(json, "sd", known.Sd);
        json.WriteNumber("count", known.Count);
        json.WriteEndObject();
    }

    private static void Number(Utf8JsonWriter json, string name, double? value)
    {
        if (value is { } number && double.IsFinite(number))
        {
            json.WriteNumber(name, Math.Round(number, 4));
        }
        else
        {
            json.WriteNull(name);
        }
    }
}
