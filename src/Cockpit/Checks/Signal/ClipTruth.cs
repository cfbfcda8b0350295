using System.Collections.Immutable;
using System.Text.Json;

namespace Cockpit.Checks.Signal;

/// <summary>What is told of one window of a reference clip.</summary>
internal sealed record ClipWindow(double Seconds, string Kind, bool Mixed, double? SnrDb, double? CarrierToNoiseDbHz, double? OffsetHz, double ClipShare, double LevelDbfs, double NoiseDbfs);

/// <summary>What is told of one frame of a reference clip.</summary>
internal sealed record ClipFrame(double StartSeconds, double StartSample, double EndSeconds, bool Whole, double? LeastSnrDb, bool Faded);

/// <summary>A reference clip with its truth: index.json and NAME.truth.json of the folder.</summary>
internal sealed record ClipTruth(
    string Name, string Source, double SampleRate, double EbN0MinusSnrDb, bool JudgeSnr, ImmutableArray<ClipWindow> Windows, ImmutableArray<ClipFrame> Frames)
{
    /// <summary>Reads all clips of a folder.</summary>
    /// <exception cref="IOException">A file is missing or cannot be read.</exception>
    /// <exception cref="JsonException">A file is not what it should be.</exception>
    public static ImmutableArray<ClipTruth> ReadAll(string folder)
    {
        using JsonDocument index = JsonDocument.Parse(File.ReadAllText(Path.Combine(folder, "index.json")));
        return [.. index.RootElement.EnumerateArray().Select(clip => Read(folder, clip))];
    }

    private static ClipTruth Read(string folder, JsonElement clip)
    {
        using JsonDocument document = JsonDocument.Parse(File.ReadAllText(Path.Combine(folder, clip.GetProperty("truth").GetString() ?? "")));
        JsonElement truth = document.RootElement;
        bool judge = !(truth.TryGetProperty("judge", out JsonElement rules) && rules.TryGetProperty("snr", out JsonElement snr) && snr.ValueKind == JsonValueKind.False);
        return new ClipTruth(
            clip.GetProperty("clip").GetString() ?? "",
            "file:" + Path.Combine(folder, clip.GetProperty("source").GetString() ?? ""),
            truth.GetProperty("sample_rate").GetDouble(),
            truth.GetProperty("ebn0_minus_snr_db").GetDouble(),
            judge,
            [.. truth.GetProperty("windows").EnumerateArray().Select(WindowOf)],
            [.. truth.GetProperty("frames").EnumerateArray().Select(FrameOf)]);
    }

    private static ClipWindow WindowOf(JsonElement w) => new(
        w.GetProperty("t").GetDouble(),
        w.GetProperty("kind").GetString() ?? "",
        w.GetProperty("mixed").GetBoolean(),
        Number(w.GetProperty("snr_db")),
        Number(w.GetProperty("cn0_dbhz")),
        Number(w.GetProperty("offset_hz")),
        w.GetProperty("clip_share").GetDouble(),
        w.GetProperty("level_dbfs").GetDouble(),
        w.GetProperty("noise_dbfs").GetDouble());

    // Columns: number, start_s, start_sample, end_s, whole, snr_min_db, snr_mean_db, faded.
    private static ClipFrame FrameOf(JsonElement f) => new(
        f[1].GetDouble(), f[2].GetDouble(), f[3].GetDouble(), f[4].GetBoolean(), Number(f[5]), f[7].GetBoolean());

    private static double? Number(JsonElement value) => value.ValueKind == JsonValueKind.Number ? value.GetDouble() : null;
}
