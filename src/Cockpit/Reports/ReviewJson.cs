using System.Buffers;
using System.Globalization;
using System.Text;
using System.Text.Json;
using Cockpit.Session.Review;

namespace Cockpit.Reports;

/// <summary>A review as one JSON object.</summary>
public static class ReviewJson
{
    /// <summary>The object, indented, with a newline at its end.</summary>
    /// <param name="review">The review.</param>
    public static string Of(SessionReview review)
    {
        ArgumentNullException.ThrowIfNull(review);
        var buffer = new ArrayBufferWriter<byte>();
        using (var json = new Utf8JsonWriter(buffer, new JsonWriterOptions { Indented = true, NewLine = "\n" }))
        {
            Write(json, review);
        }

        return Encoding.UTF8.GetString(buffer.WrittenSpan) + "\n";
    }

    /// <summary>The object as a value of another.</summary>
    internal static void Write(Utf8JsonWriter json, SessionReview review)
    {
        json.WriteStartObject();
        json.WriteString("satellite", review.SatelliteName);
        json.WriteString("from_utc", Instant(review.FromUtc));
        json.WriteString("to_utc", Instant(review.ToUtc));
        Number(json, "highest_elevation_deg", review.HighestElevation.Degrees, 2);
        json.WriteStartObject("lines");
        json.WriteNumber("sent", review.Lines.Sent);
        json.WriteNumber("received", review.Lines.Received);
        json.WriteNumber("lost", review.Lines.Lost);
        json.WriteString("by", review.Lines.By == LineEvidence.Frames ? "frames" : "level");
        json.WriteNumber("unwatched", review.Lines.Unwatched);
        json.WriteEndObject();
        WriteGaps(json, review);
        WriteHand(json, review.Hand);
        WriteDoppler(json, review.Doppler);
        WriteCarrier(json, review.Carrier);
        WriteSky(json, review);
        WriteEdges(json, review);
        Number(json, "need_db", review.NeedDb, 2);
        json.WriteStartArray("advice");
        foreach (Advice advice in review.Advice)
        {
            json.WriteStartObject();
            json.WriteString("text", advice.Text);
            json.WriteNumber("lines", advice.Lines);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void WriteGaps(Utf8JsonWriter json, SessionReview review)
    {
        json.WriteStartArray("gaps");
        foreach (Gap gap in review.Gaps)
        {
            json.WriteStartObject();
            json.WriteString("from_utc", Instant(gap.FromUtc));
            json.WriteString("to_utc", Instant(gap.ToUtc));
            json.WriteNumber("lines", gap.Lines);
            json.WriteString("cause", CauseWords.NameOf(gap.Cause));
            Number(json, "confidence", gap.Confidence, 3);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void WriteHand(Utf8JsonWriter json, HandReview hand)
    {
        json.WriteStartObject("hand");
        WriteSpread(json, "reaction_s", "median", hand.ReactionSeconds);
        WriteSpread(json, "amount", "scale", hand.Amount);
        WriteSpread(json, "direction_deg", "mean", hand.DirectionDegrees);
        json.WriteNumber("nudges", hand.Nudges);
        json.WriteNumber("planned", hand.Planned);
        json.WriteNumber("marks", hand.Marks);
        json.WriteStartArray("reactions");
        foreach (ReactionPoint point in hand.Reactions)
        {
            json.WriteStartObject();
            json.WriteString("call_utc", Instant(point.Utc));
            Number(json, "s", point.Seconds, 2);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void WriteSpread(Utf8JsonWriter json, string name, string middle, Spread? spread)
    {
        if (spread is not { } known)
        {
            json.WriteNull(name);
            return;
        }

        json.WriteStartObject(name);
        Number(json, middle, known.Value, 3);
        Number(json, "sd", known.Sd, 3);
        json.WriteNumber("count", known.Count);
        json.WriteEndObject();
    }

    private static void WriteDoppler(Utf8JsonWriter json, DopplerSlip? doppler)
    {
        if (doppler is null)
        {
            json.WriteNull("doppler");
            return;
        }

        json.WriteStartObject("doppler");
        Number(json, "slip_s", doppler.SlipSeconds, 3);
        Number(json, "sd", doppler.Sd, 3);
        json.WriteEndObject();
    }

    private static void WriteCarrier(Utf8JsonWriter json, CarrierReview? carrier)
    {
        if (carrier is null)
        {
            json.WriteNull("carrier");
            return;
        }

        json.WriteStartObject("carrier");
        Number(json, "elements_age_days", carrier.ElementsAgeDays, 3);
        Number(json, "clock_behind_s", carrier.Clock?.Behind.TotalSeconds, 3);
        json.WriteString("says", carrier.Verdict.ToString().ToLowerInvariant());
        json.WriteEndObject();
    }

    private static void WriteEdges(Utf8JsonWriter json, SessionReview review)
    {
        json.WriteStartArray("skyline");
        foreach (SkyEdge edge in review.Edges)
        {
            json.WriteStartObject();
            json.WriteString("signal", edge.Came ? "came" : "went");
            json.WriteString("utc", Instant(edge.Utc));
            Number(json, "azimuth_deg", edge.Azimuth.Degrees, 2);
            Number(json, "elevation_deg", edge.Elevation.Degrees, 2);
            Number(json, "mask_deg", edge.Mask.Degrees, 2);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void WriteSky(Utf8JsonWriter json, SessionReview review)
    {
        json.WriteStartArray("sky");
        foreach (SkyPart part in review.Parts)
        {
            json.WriteStartObject();
            Number(json, "azimuth_deg", part.Azimuth.Degrees, 0);
            json.WriteBoolean("high", part.High);
            json.WriteNumber("sent", part.Sent);
            json.WriteNumber("received", part.Received);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void Number(Utf8JsonWriter json, string name, double? value, int decimals)
    {
        if (value is { } number && double.IsFinite(number))
        {
            json.WriteNumber(name, Math.Round(number, decimals));
        }
        else
        {
            json.WriteNull(name);
        }
    }

    private static string Instant(DateTimeOffset utc) => utc.ToString("yyyy-MM-dd'T'HH:mm:ss.fff'Z'", CultureInfo.InvariantCulture);
}
