using Cockpit.Core.Dsp.Qpsk;

namespace Cockpit.Core.Dsp.Synthesis;

/// <summary>What the symbols around an instant add to it: a pulse, tabulated over the phase within a symbol.</summary>
internal sealed class PulseTable
{
    private const int Phases = 1024;

    private readonly float[] _weights;

    private PulseTable(int reach, Func<double, double> pulse)
    {
        Reach = reach;
        Width = (2 * reach) + 1;
        _weights = new float[Phases * Width];
        for (int phase = 0; phase < Phases; phase++)
        {
            for (int k = 0; k < Width; k++)
            {
                _weights[(phase * Width) + k] = (float)pulse(((phase + 0.5) / Phases) + reach - k);
            }
        }
    }

    /// <summary>Symbols before and after that count.</summary>
    public int Reach { get; }

    /// <summary>Symbols that count.</summary>
    public int Width { get; }

    /// <summary>A box one symbol long through a low-pass at half the sample rate.</summary>
    /// <param name="samplesPerSymbol">Samples of a symbol.</param>
    public static PulseTable Box(double samplesPerSymbol)
    {
        const double ReachSamples = 12, Cutoff = 0.49;
        int steps = 64;
        double[] integral = new double[(int)(2 * ReachSamples * steps) + 1];
        for (int k = 1; k < integral.Length; k++)
        {
            double t = ((k - 0.5) / steps) - ReachSamples;
            double window = 0.42 + (0.5 * Math.Cos(Math.PI * t / ReachSamples)) + (0.08 * Math.Cos(2 * Math.PI * t / ReachSamples));
            integral[k] = integral[k - 1] + (window * 2 * Cutoff * Sinc(2 * Cutoff * t) / steps);
        }

        double whole = integral[^1];
        double Step(double samples)
        {
            double at = Math.Clamp((samples + ReachSamples) * steps, 0, integral.Length - 1.000001);
            int index = (int)at;
            return (integral[index] + ((at - index) * (integral[index + 1] - integral[index]))) / whole;
        }

        return new PulseTable((int)Math.Ceiling(ReachSamples / samplesPerSymbol) + 1, u => Step(u * samplesPerSymbol) - Step((u - 1) * samplesPerSymbol));
    }

    /// <summary>Root raised cosine, the symbol in the middle of its interval; unit power of unit symbols.</summary>
    public static PulseTable RootRaisedCosine()
    {
        const int Symbols = 14;
        return new PulseTable(Symbols, u => PulseShape.At(u - 0.5));
    }

    /// <summary>The weights of the symbols from <see cref="Reach"/> before to <see cref="Reach"/> after the one that an instant is in.</summary>
    /// <param name="phase">Where in its symbol the instant is, 0 to 1.</param>
    public ReadOnlySpan<float> At(double phase) => _weights.AsSpan(Math.Clamp((int)(phase * Phases), 0, Phases - 1) * Width, Width);

    private static double Sinc(double x) => x == 0 ? 1 : Math.Sin(Math.PI * x) / (Math.PI * x);
}
