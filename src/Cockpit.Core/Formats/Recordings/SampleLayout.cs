using Cockpit.Core.Dsp;

namespace Cockpit.Core.Formats.Recordings;

/// <summary>Where the samples of a recording stand and what they mean.</summary>
/// <param name="Format">How a sample stands in bytes.</param>
/// <param name="SampleRate">Samples a second.</param>
/// <param name="Offset">Bytes before the first sample.</param>
/// <param name="Bytes">Bytes of samples; null = as far as the file goes, also when it grows.</param>
/// <param name="CentreHz">Frequency that is at 0 Hz of the samples; null where nobody says.</param>
/// <param name="Start">Time of the first sample; null where nobody says.</param>
/// <param name="Exchanged">Quadrature comes first.</param>
public sealed record SampleLayout(SampleFormat Format, double SampleRate, long Offset = 0, long? Bytes = null, double? CentreHz = null, DateTimeOffset? Start = null, bool Exchanged = false)
{
    /// <summary>Fewest samples a second that anything is done with.</summary>
    public const double LeastRate = 100_000;

    /// <summary>Most samples a second.</summary>
    public const double MostRate = 40_000_000;

    /// <summary>Bytes of a second.</summary>
    public double BytesPerSecond => SampleRate * Format.BytesPerSample();
}
