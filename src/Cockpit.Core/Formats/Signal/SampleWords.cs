using System.Globalization;
using Cockpit.Core.Signal;

namespace Cockpit.Core.Formats.Signal;

/// <summary>Says a measurement to people, with names and units, and what the line called each value: <c>snr 7.4 dB ('SNR'), lock no</c>.</summary>
public static class SampleWords
{
    /// <summary>Says it.</summary>
    /// <param name="sample">What was read.</param>
    /// <param name="names">What the line calls the values.</param>
    /// <returns>One line; empty where nothing was read.</returns>
    public static string Of(SignalSample sample, SignalNames names)
    {
        ArgumentNullException.ThrowIfNull(sample);
        ArgumentNullException.ThrowIfNull(names);
        List<string> words = [];
        void Add(SignalKey key, string? value)
        {
            string own = SignalFields.NameOf(key);
            if (value is not null)
            {
                words.Add(names.Of(own) is { } called ? $"{own} {value} ('{called}')" : $"{own} {value}");
            }
        }

        Add(SignalKey.Snr, Number(sample.SnrDb, " dB"));
        Add(SignalKey.Cn0, Number(sample.Cn0DbHz, " dB-Hz"));
        Add(SignalKey.Level, Number(sample.LevelDb, " dB"));
        Add(SignalKey.Offset, Number(sample.OffsetHz, " Hz"));
        Add(SignalKey.Lock, sample.Locked is { } locked ? (locked ? "yes" : "no") : null);
        Add(SignalKey.Frames, SignalTokens.Exact(sample.Frames));
        Add(SignalKey.BitErrors, SignalTokens.Exact(sample.BitErrorRatio));
        Add(SignalKey.Clipped, Number(sample.Clipped * 100.0, " %"));
        Add(SignalKey.Time, sample.Utc?.ToString("yyyy-MM-dd HH:mm:ss.f", CultureInfo.InvariantCulture));
        return string.Join(", ", words);
    }

    private static string? Number(double? value, string unit) => value is { } number ? number.ToString("0.###", CultureInfo.InvariantCulture) + unit : null;
}
