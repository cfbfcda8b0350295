using System.Collections.Immutable;
using Cockpit.Core.Dsp.Qpsk;

namespace Cockpit.Core.Dsp.Synthesis;

/// <summary>A value at a time; between two of them it is a straight line, before the first and after the last it stays.</summary>
/// <param name="Seconds">Time from the first sample.</param>
/// <param name="Value">Value there.</param>
public readonly record struct ProfilePoint(double Seconds, double Value);

/// <summary>An unwanted signal.</summary>
/// <param name="Hz">Its middle.</param>
/// <param name="WidthHz">Its width; 0 = a tone.</param>
/// <param name="Db">Its power over the noise in the bit rate of the split-phase service.</param>
public readonly record struct Interferer(double Hz, double WidthHz, double Db);

/// <summary>A time without signal.</summary>
/// <param name="From">Seconds.</param>
/// <param name="To">Seconds.</param>
public readonly record struct Dropout(double From, double To);

/// <summary>A recording to be made: everything that decides what its samples are.</summary>
public sealed record IqScenario
{
    /// <summary>Seed of bits, noise and interferers.</summary>
    public ulong Seed { get; init; } = 1;

    /// <summary>Kind of signal.</summary>
    public SignalKind Kind { get; init; } = SignalKind.SplitPhase;

    /// <summary>Symbols a second of QPSK.</summary>
    public double QpskRate { get; init; } = SpectrumTemplate.QpskRate;

    /// <summary>How the QPSK service is coded and turned.</summary>
    public QpskSending Qpsk { get; init; } = QpskSending.Punctured;

    /// <summary>Samples a second.</summary>
    public double SampleRate { get; init; } = 3_000_000;

    /// <summary>Length.</summary>
    public double Seconds { get; init; } = 1;

    /// <summary>Frequency at 0 Hz of the samples.</summary>
    public double CentreHz { get; init; } = 1_701_300_000;

    /// <summary>Es/N0 of the whole wave, dB, over time; of a carrier C/N0 less that of the split-phase bit rate.</summary>
    public ImmutableArray<ProfilePoint> SnrDb { get; init; } = [new(0, 12)];

    /// <summary>Doppler, hertz, over time.</summary>
    public ImmutableArray<ProfilePoint> DopplerHz { get; init; } = [new(0, 0)];

    /// <summary>How fast the clock of the receiver is, parts per million.</summary>
    public double ClockPpm { get; init; }

    /// <summary>Phase swing of the split-phase signal, degrees.</summary>
    public double SwingDegrees { get; init; } = 67;

    /// <summary>Whether all bits are the other way round.</summary>
    public bool Inverted { get; init; }

    /// <summary>Whether the Earth words are smooth scenes instead of chance.</summary>
    public bool Picture { get; init; }

    /// <summary>Depth of fading, dB from top to bottom.</summary>
    public double FadingDb { get; init; }

    /// <summary>Fades a second.</summary>
    public double FadingHz { get; init; } = 0.5;

    /// <summary>Times without signal.</summary>
    public ImmutableArray<Dropout> Dropouts { get; init; } = [];

    /// <summary>Unwanted signals.</summary>
    public ImmutableArray<Interferer> Interferers { get; init; } = [];

    /// <summary>DC: its power over that of the noise in the whole band, dB; null = none.</summary>
    public double? DcDb { get; init; }

    /// <summary>How samples are written.</summary>
    public SampleFormat Format { get; init; } = SampleFormat.Ci16Le;

    /// <summary>Root mean square of a component at the loudest, full scale 1.</summary>
    public double Rms { get; init; } = 0.2;

    /// <summary>A profile at a time.</summary>
    public static double At(ImmutableArray<ProfilePoint> profile, double seconds)
    {
        if (profile.Length == 0 || seconds <= profile[0].Seconds)
        {
            return profile.Length == 0 ? 0 : profile[0].Value;
        }

        for (int k = 1; k < profile.Length; k++)
        {
            if (seconds < profile[k].Seconds)
            {
                (ProfilePoint a, ProfilePoint b) = (profile[k - 1], profile[k]);
                return a.Value + ((b.Value - a.Value) * (seconds - a.Seconds) / (b.Seconds - a.Seconds));
            }
        }

        return profile[^1].Value;
    }
}
