using System.Text;
using System.Text.Json;
using Cockpit.Core.Dsp;
using Cockpit.Core.Dsp.Synthesis;

namespace Cockpit.Checks.Signal;

/// <summary>A scenario on its way into bytes, a tenth of a second at a time, and the truth of it as JSON.</summary>
internal sealed class IqRun
{
    private readonly IqScenario _scenario;
    private readonly IqGenerator _generator;
    private readonly float[] _i;
    private readonly float[] _q;
    private readonly byte[] _bytes;
    private readonly List<BlockStatistics> _statistics = [];

    /// <summary>Begins.</summary>
    public IqRun(IqScenario scenario)
    {
        _scenario = scenario;
        _generator = new IqGenerator(scenario);
        _i = new float[(int)Math.Ceiling(scenario.SampleRate / SignalMeter.WindowsPerSecond) + 1];
        _q = new float[_i.Length];
        _bytes = new byte[_i.Length * scenario.Format.BytesPerSample()];
    }

    /// <summary>Samples a second.</summary>
    public double SampleRate => _scenario.SampleRate;

    /// <summary>Samples in all.</summary>
    public long TotalSamples => _generator.TotalSamples;

    /// <summary>Samples so far.</summary>
    public long Samples { get; private set; }

    /// <summary>The next bytes: those of one window; empty at the end. Valid until the next call.</summary>
    public ReadOnlyMemory<byte> Next()
    {
        int wanted = (int)((long)Math.Round((_statistics.Count + 1) * SampleRate / SignalMeter.WindowsPerSecond) - Samples);
        int count = _generator.Next(_i.AsSpan(0, wanted), _q.AsSpan(0, wanted));
        int bytes = count * _scenario.Format.BytesPerSample();
        SampleWriter.Write(_scenario.Format, _i.AsSpan(0, count), _q.AsSpan(0, count), _bytes);
        SampleConverter.Convert(_scenario.Format, _bytes.AsSpan(0, bytes), _i.AsSpan(0, count), _q.AsSpan(0, count));
        _statistics.Add(BlockStatistics.Of(new ComplexBlock(Samples, _i.AsSpan(0, count), _q.AsSpan(0, count)), _scenario.Format));
        Samples += count;
        return _bytes.AsMemory(0, bytes);
    }

    /// <summary>What is true of the samples so far, in the shape that <c>check signal</c> reads.</summary>
    /// <param name="clip">Name.</param>
    /// <param name="file">File of the samples.</param>
    /// <param name="start">Time of the first.</param>
    public string TruthJson(string clip, string file, DateTimeOffset start)
    {
        using MemoryStream bytes = new();
        using (Utf8JsonWriter json = new(bytes, new JsonWriterOptions { Indented = true }))
        {
            json.WriteStartObject();
            json.WriteString("clip", clip);
            json.WriteString("file", file);
            json.WriteNumber("sample_rate", SampleRate);
            json.WriteNumber("center_hz", _scenario.CentreHz);
            json.WriteString("start_utc", start.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss.fffffff'Z'", System.Globalization.CultureInfo.InvariantCulture));
            json.WriteString("kind", _scenario.Kind.Name());
            json.WriteNumber("ebn0_minus_snr_db", 0);
            WriteWindows(json);
            WriteFrames(json);
            json.WriteEndObject();
        }

        return Encoding.UTF8.GetString(bytes.ToArray());
    }

    private void WriteWindows(Utf8JsonWriter json)
    {
        json.WriteStartArray("windows");
        foreach ((TrueWindow window, BlockStatistics statistics) in _generator.Truth.Windows.Zip(_statistics))
        {
            json.WriteStartObject();
            json.WriteNumber("t", Math.Round(window.FirstSample / SampleRate, 6));
            json.WriteString("kind", window.Kind.Name());
            json.WriteBoolean("mixed", window.Mixed);
            WriteNumber(json, "snr_db", window.SnrDb);
            WriteNumber(json, "cn0_dbhz", window.CarrierToNoiseDbHz);
            WriteNumber(json, "offset_hz", window.OffsetHz);
            json.WriteNumber("clip_share", Math.Round(statistics.ClipShare, 6));
            WriteNumber(json, "level_dbfs", statistics.LevelDbfs);
            WriteNumber(json, "noise_dbfs", 10 * Math.Log10(_generator.NoisePower));
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    // Columns: number, start_s, start_sample, end_s, whole, snr_min_db, snr_mean_db (not told), faded.
    private void WriteFrames(Utf8JsonWriter json)
    {
        json.WriteStartArray("frames");
        foreach (TrueFrame frame in _generator.Truth.Frames)
        {
            json.WriteStartArray();
            json.WriteNumberValue(frame.Number);
            json.WriteNumberValue(Math.Round(frame.StartSample / SampleRate, 9));
            json.WriteNumberValue(Math.Round(frame.StartSample, 4));
            json.WriteNumberValue(Math.Round(frame.EndSample / SampleRate, 9));
            json.WriteBooleanValue(frame.EndSample <= Samples);
            WriteValue(json, frame.LeastSnrDb);
            json.WriteNullValue();
            json.WriteBooleanValue(frame.LeastSnrDb is null or < 0);
            json.WriteEndArray();
        }

        json.WriteEndArray();
    }

    private static void WriteNumber(Utf8JsonWriter json, string name, double? value)
    {
        json.WritePropertyName(name);
        WriteValue(json, value);
    }

    private static void WriteValue(Utf8JsonWriter json, double? value)
    {
        if (value is { } number && double.IsFinite(number))
        {
            json.WriteNumberValue(Math.Round(number, 4));
        }
        else
        {
            json.WriteNullValue();
        }
    }
}
