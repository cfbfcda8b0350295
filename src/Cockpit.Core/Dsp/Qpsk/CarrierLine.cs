namespace Cockpit.Core.Dsp.Qpsk;

/// <summary>Finds the carrier in the fourth power of the symbols, which has a line at four times its frequency.</summary>
/// <remarks>Well known for QPSK (no source; the noise of the power is what limits it: from about -3 dB Es/N0 up). Allocates nothing after it was made.</remarks>
internal sealed class CarrierLine
{
    // The spectrum may have been misled by a neighbour: twice the range of Doppler and clocks.
    private const double LargestHertz = 200e3;
    private const int FewBlocks = 4;
    private const int ManyBlocks = 16;

    // Noise: gamma variables; Chernoff's bound for 2800 lines at 1e-4.
    private const float FewThreshold = 7.3f;
    private const float ManyThreshold = 2.9f;

    private readonly Fft _fft = new(SymbolBlock.Length);
    private readonly float[] _re = new float[SymbolBlock.Length];
    private readonly float[] _im = new float[SymbolBlock.Length];
    private readonly float[] _sums = new float[SymbolBlock.Length];
    private readonly double _perLine;
    private readonly int _reach;
    private int _blocks;

    /// <summary>No sums yet.</summary>
    /// <param name="symbolRate">Symbols per second.</param>
    public CarrierLine(double symbolRate)
    {
        _perLine = symbolRate / SymbolBlock.Length / 4.0;
        _reach = Math.Min((int)(LargestHertz / _perLine), (SymbolBlock.Length / 2) - 2);
    }

    /// <summary>The carrier as found, hertz above zero.</summary>
    public double Hertz { get; private set; }

    /// <summary>Whether sums of full length had no line since it was started anew.</summary>
    public bool InVain { get; private set; }

    /// <summary>Starts anew.</summary>
    public void Clear() => (_blocks, InVain) = (0, false);

    /// <summary>Takes the next block.</summary>
    /// <param name="block">Symbols in time with the clock.</param>
    /// <returns>True when a line was found; the sums then start anew.</returns>
    public bool Take(in SymbolBlock block)
    {
        if (_blocks == 0)
        {
            Array.Clear(_sums);
        }

        Power(block.I[SymbolBlock.Margin..], block.Q[SymbolBlock.Margin..], 1.0f / Math.Max(block.Power, 1e-20f));
        _fft.Forward(_re, _im);
        for (int k = 0; k < _sums.Length; k++)
        {
            _sums[k] += (_re[k] * _re[k]) + (_im[k] * _im[k]);
        }

        _blocks++;
        bool found = _blocks is FewBlocks or ManyBlocks && Search(_blocks == FewBlocks ? FewThreshold : ManyThreshold);
        InVain = !found && (InVain || _blocks == ManyBlocks);
        _blocks = found || _blocks == ManyBlocks ? 0 : _blocks;
        return found;
    }

    private void Power(ReadOnlySpan<float> i, ReadOnlySpan<float> q, float scale)
    {
        for (int k = 0; k < _re.Length; k++)
        {
            float x = ((i[k] * i[k]) - (q[k] * q[k])) * scale;
            float y = 2.0f * i[k] * q[k] * scale;
            (_re[k], _im[k]) = ((x * x) - (y * y), 2.0f * x * y);
        }
    }

    private bool Search(float threshold)
    {
        float sum = 0.0f;
        float best = 0.0f;
        int line = 0;
        for (int f = -_reach; f <= _reach; f++)
        {
            float value = At(f);
            sum += value;
            (best, line) = value > best ? (value, f) : (best, line);
        }

        float mean = (sum - best) / (2 * _reach);
        if (mean <= 0.0f || best < threshold * mean)
        {
            return false;
        }

        Hertz = (line + Fraction(MathF.Sqrt(At(line - 1)), MathF.Sqrt(best), MathF.Sqrt(At(line + 1)))) * _perLine;
        return true;
    }

    // Between two lines the amplitudes of a lone tone stand as the distances do.
    private static double Fraction(float before, float peak, float after) =>
        after > before ? after / (peak + after) : -before / (peak + before);

    private float At(int line) => _sums[_fft.Order[(line + SymbolBlock.Length) % SymbolBlock.Length]];
}
