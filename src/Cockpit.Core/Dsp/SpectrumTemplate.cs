namespace Cockpit.Core.Dsp;

/// <summary>The shape of a signal's power spectrum about its carrier, without a residual carrier; unit power.</summary>
/// <remarks>
/// Split-phase: sin^4(x)/x^2 with x = pi f / (2 R), random data. QPSK: root raised cosine pulses, so the spectrum is the raised cosine.
/// Source: J. G. Proakis, Digital Communications, 4th ed., sections 4.4 and 9.2; the roll-off 0.5 is from memory.
/// </remarks>
public sealed class SpectrumTemplate
{
    /// <summary>Bits per second of the split-phase service.</summary>
    public const double SplitPhaseRate = 665_400;

    /// <summary>Symbols per second of the slower QPSK service (from memory).</summary>
    public const double QpskRate = 7_000_000.0 / 3;

    /// <summary>Symbols per second of the faster QPSK service (from memory).</summary>
    public const double FastQpskRate = 2_800_000;

    private const double RollOff = 0.5;
    private const int StepsPerRate = 512;

    private readonly float[] _table;

    private SpectrumTemplate(SignalKind kind, double symbolRate, Func<double, double> density)
    {
        Kind = kind;
        SymbolRate = symbolRate;
        _table = [.. Enumerable.Range(0, (4 * StepsPerRate) + 2).Select(k => (float)density(k / (double)StepsPerRate))];
    }

    /// <summary>The kind of signal.</summary>
    public SignalKind Kind { get; }

    /// <summary>Bits or symbols per second.</summary>
    public double SymbolRate { get; }

    /// <summary>The template of the split-phase service.</summary>
    public static SpectrumTemplate SplitPhase() => new(SignalKind.SplitPhase, SplitPhaseRate, Biphase);

    /// <summary>The template of a QPSK service.</summary>
    public static SpectrumTemplate Qpsk(double symbolRate) => new(SignalKind.Qpsk, symbolRate, RaisedCosine);

    /// <summary>Writes the density at evenly spaced frequencies: power in a band of the sample rate, as white noise of that density would have.</summary>
    /// <param name="firstHz">Frequency of the first value, from the carrier.</param>
    /// <param name="stepHz">Step.</param>
    /// <param name="sampleRate">What the density is multiplied with.</param>
    /// <param name="to">Written.</param>
    public void Fill(double firstHz, double stepHz, double sampleRate, Span<float> to)
    {
        float scale = (float)(sampleRate / SymbolRate);
        double perHz = StepsPerRate / SymbolRate;
        for (int k = 0; k < to.Length; k++)
        {
            double at = Math.Abs(firstHz + (k * stepHz)) * perHz;
            int index = (int)Math.Min(at, _table.Length - 2);
            float part = (float)Math.Min(at - index, 1);
            to[k] = scale * (_table[index] + (part * (_table[index + 1] - _table[index])));
        }
    }

    private static double Biphase(double rates)
    {
        double x = Math.PI * rates / 2;
        double sin = Math.Sin(x);
        return x == 0 ? 0 : sin * sin * sin * sin / (x * x);
    }

    private static double RaisedCosine(double rates) => rates switch
    {
        <= (1 - RollOff) / 2 => 1,
        >= (1 + RollOff) / 2 => 0,
        _ => 0.5 * (1 + Math.Cos(Math.PI / RollOff * (rates - ((1 - RollOff) / 2)))),
    };
}
