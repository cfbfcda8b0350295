using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using Cockpit.Core.Formats;
using Cockpit.Session.Review;

namespace Cockpit.Exports;

/// <summary>Puts gaps and marks of a session into the description of a SigMF recording; everything else in it stays as it is.</summary>
/// <remarks>
/// Source: SigMF specification 1.0.0: annotations in the order of their first sample, that and their number of samples not negative, a label of at
/// most 20 characters. What an earlier merge wrote is told by its generator, and replaced.
/// </remarks>
public static class SigmfMerge
{
    /// <summary>Who wrote an annotation.</summary>
    public const string Generator = "cockpit export";

    private static readonly JsonWriterOptions Indented = new() { Indented = true };
    private static readonly string[] InstantForms = ["yyyy-MM-dd'T'HH:mm:ss.FFFFFFF'Z'", "yyyy-MM-dd'T'HH:mm:ss.FFFFFFFzzz"];

    /// <summary>The description with the annotations.</summary>
    /// <param name="text">The description as it is.</param>
    /// <param name="source">What it is called in errors.</param>
    /// <param name="marks">What happened, in any order.</param>
    /// <returns>The new description, or one sentence why there is none.</returns>
    public static Parsed<byte[]> Of(string text, string source, IReadOnlyCollection<SessionMark> marks)
    {
        ArgumentNullException.ThrowIfNull(marks);
        try
        {
            if (JsonNode.Parse(text) is not JsonObject root || root["global"] is not JsonObject global || root["captures"] is not JsonArray captures)
            {
                return new ParseError(source, 0, 0, "this is not the description of a SigMF recording: global and captures are missing");
            }

            if (global["core:sample_rate"]?.GetValue<double>() is not (> 0.0 and var rate))
            {
                return new ParseError(source, 0, 0, "the description does not tell the sample rate (core:sample_rate)");
            }

            ImmutableArray<Capture> spans = Captures(captures);
            return spans.IsEmpty
                ? new ParseError(source, 0, 0, "no capture tells when it was recorded (core:datetime), so nothing can be put at its sample")
                : Written(root, [.. marks.SelectMany(mark => Annotations(mark, spans, rate))]);
        }
        catch (Exception trouble) when (trouble is JsonException or InvalidOperationException or FormatException)
        {
            return new ParseError(source, 0, 0, $"this is not the description of a SigMF recording: {trouble.Message}");
        }
    }

    /// <summary>What a session has to say about a recording: its gaps, the operator's keys, and the pass.</summary>
    /// <param name="log">What was gathered of the session.</param>
    /// <param name="review">Its review.</param>
    /// <param name="utcOf">UTC of a session time, seconds.</param>
    public static ImmutableArray<SessionMark> Marks(ReviewLog log, SessionReview review, Func<double, DateTimeOffset> utcOf)
    {
        ArgumentNullException.ThrowIfNull(log);
        ArgumentNullException.ThrowIfNull(review);
        ArgumentNullException.ThrowIfNull(utcOf);
        var marks = ImmutableArray.CreateBuilder<SessionMark>();
        foreach (Gap gap in review.Gaps)
        {
            marks.Add(new SessionMark(
                gap.FromUtc,
                gap.ToUtc,
                "gap " + CauseWords.NameOf(gap.Cause),
                string.Create(CultureInfo.InvariantCulture, $"{gap.Lines} picture lines lost: {CauseWords.NameOf(gap.Cause)}, {100.0 * gap.Confidence:0} % sure")));
        }

        foreach (ReviewKey key in log.Keys)
        {
            DateTimeOffset utc = utcOf(key.At);
            marks.Add(new SessionMark(utc, utc, $"key {key.Key.ToString().ToLowerInvariant()}", "the operator pressed a key"));
        }

        if (log.Pass is { } pass)
        {
            marks.Add(new SessionMark(pass.Aos.Utc, pass.Aos.Utc, "AOS", "the pass begins"));
            marks.Add(new SessionMark(pass.Tca.Utc, pass.Tca.Utc, "TCA", "the satellite is highest"));
            marks.Add(new SessionMark(pass.Los.Utc, pass.Los.Utc, "LOS", "the pass ends"));
        }

        return marks.ToImmutable();
    }

    private static byte[] Written(JsonObject root, ImmutableArray<(long Start, JsonObject Annotation)> own)
    {
        List<(long Start, JsonNode? Annotation)> all = [];
        if (root["annotations"] is JsonArray before)
        {
            JsonNode?[] others = [.. before];
            before.Clear();
            all.AddRange(others.Where(one => !IsOwn(one)).Select(one => (one?["core:sample_start"]?.GetValue<long>() ?? 0L, one)));
        }

        all.AddRange(own.Select(one => (one.Start, (JsonNode?)one.Annotation)));
        root["annotations"] = new JsonArray([.. all.OrderBy(one => one.Start).Select(one => one.Annotation)]);
        using MemoryStream bytes = new();
        using (Utf8JsonWriter json = new(bytes, Indented))
        {
            root.WriteTo(json);
        }

        return bytes.ToArray();
    }

    private static bool IsOwn(JsonNode? annotation) =>
        annotation is JsonObject one && one["core:generator"] is JsonValue value && value.TryGetValue(out string? who) && string.Equals(who, Generator, StringComparison.Ordinal);

    private static ImmutableArray<Capture> Captures(JsonArray captures)
    {
        (long Start, DateTimeOffset? Utc)[] all =
        [
            .. captures.OfType<JsonObject>()
                .Select(one => (one["core:sample_start"]?.GetValue<long>() ?? 0L, one["core:datetime"]?.GetValue<string>() is { } text ? Instant(text) : null))
                .OrderBy(one => one.Item1),
        ];
        return [.. all.Select((one, i) => new Capture(one.Start, i + 1 < all.Length ? all[i + 1].Start : long.MaxValue, one.Utc ?? default)).Where((_, i) => all[i].Utc is not null)];
    }

    private static DateTimeOffset? Instant(string text) =>
        DateTimeOffset.TryParseExact(text, InstantForms, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal | DateTimeStyles.AdjustToUniversal, out DateTimeOffset utc) ? utc : null;

    // What goes over the seam of two captures is told in both; what lies outside all of them was not recorded.
    private static IEnumerable<(long Start, JsonObject Annotation)> Annotations(SessionMark mark, ImmutableArray<Capture> captures, double rate)
    {
        foreach (Capture capture in captures)
        {
            double first = capture.Start + Math.Round((mark.FromUtc - capture.Utc).TotalSeconds * rate);
            double end = Math.Max(first + 1.0, capture.Start + Math.Round((mark.ToUtc - capture.Utc).TotalSeconds * rate));
            long from = (long)Math.Max(first, capture.Start);
            long to = (long)Math.Min(end, capture.End);
            if (to > from)
            {
                yield return (from, new JsonObject
                {
                    ["core:sample_start"] = from,
                    ["core:sample_count"] = to - from,
                    ["core:generator"] = Generator,
                    ["core:label"] = mark.Label,
                    ["core:comment"] = mark.Comment,
                });
            }
        }
    }

    private readonly record struct Capture(long Start, long End, DateTimeOffset Utc);
}

/// <summary>Something that happened in a session.</summary>
/// <param name="FromUtc">When it began.</param>
/// <param name="ToUtc">When it ended; the same for a moment.</param>
/// <param name="Label">At most 20 characters.</param>
/// <param name="Comment">For people.</param>
public readonly record struct SessionMark(DateTimeOffset FromUtc, DateTimeOffset ToUtc, string Label, string Comment);
