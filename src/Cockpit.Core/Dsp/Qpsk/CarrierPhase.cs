namespace Cockpit.Core.Dsp.Qpsk;

/// <summary>The carrier's phase, but for quarters of a turn, for every 256 symbols of a block.</summary>
/// <remarks>
/// Fourth power, summed over a part and half of its neighbours; good to 4 degrees at 2 dB Es/N0, follows some 50 Hz.
/// Source: A. J. Viterbi, A. M. Viterbi, IEEE Trans. Inf. Theory 29 (1983), 543.
/// </remarks>
internal sealed class CarrierPhase
{
    /// <summary>Symbols of a part.</summary>
    public const int Part = 256;

    private const int Parts = SymbolBlock.Length / Part;
    private const double Quarter = Math.PI / 2.0;

    // Index 0 is the last part of the block before.
    private readonly double[] _re = new double[Parts + 1];
    private readonly double[] _im = new double[Parts + 1];
    private readonly double[] _phases = new double[Parts + 1];

    /// <summary>Starts anew.</summary>
    public void Clear()
    {
        Array.Clear(_re);
        Array.Clear(_im);
        Array.Clear(_phases);
    }

    /// <summary>Measures a block.</summary>
    /// <param name="block">Symbols.</param>
    public void Take(in SymbolBlock block)
    {
        (_re[0], _im[0], _phases[0]) = (_re[Parts], _im[Parts], _phases[Parts]);
        for (int part = 1; part <= Parts; part++)
        {
            int from = SymbolBlock.Margin + ((part - 1) * Part);
            (_re[part], _im[part]) = Fourth(block.I.Slice(from, Part), block.Q.Slice(from, Part));
        }

        for (int part = 1; part <= Parts; part++)
        {
            int after = Math.Min(part + 1, Parts);
            double re = (0.5 * (_re[part - 1] + _re[after])) + _re[part];
            double im = (0.5 * (_im[part - 1] + _im[after])) + _im[part];

            // The fourth power of (1 + j) / sqrt 2 is -1.
            double phase = Math.Atan2(-im, -re) / 4.0;
            _phases[part] = phase + (Quarter * Math.Round((_phases[part - 1] - phase) / Quarter));
        }
    }

    /// <summary>The phase at a symbol of the block, radians.</summary>
    /// <param name="index">Index in the block, its margin included.</param>
    public double At(int index) => _phases[index < SymbolBlock.Margin ? 0 : 1 + ((index - SymbolBlock.Margin) / Part)];

    private static (double Re, double Im) Fourth(ReadOnlySpan<float> i, ReadOnlySpan<float> q)
    {
        (float sumRe, float sumIm) = (0.0f, 0.0f);
        for (int k = 0; k < i.Length && k < q.Length; k++)
        {
            float x = (i[k] * i[k]) - (q[k] * q[k]);
            float y = 2.0f * i[k] * q[k];
            sumRe += (x * x) - (y * y);
            sumIm += 2.0f * x * y;
        }

        return (sumRe, sumIm);
    }
}
