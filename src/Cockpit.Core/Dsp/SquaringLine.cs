namespace Cockpit.Core.Dsp;

/// <summary>The carrier of a binary phase modulation, whatever its swing, from the line that its square has at twice its frequency.</summary>
/// <remarks>Source: F. M. Gardner, Phaselock Techniques, 3rd ed., chapter 13 (squaring loop).</remarks>
public sealed class SquaringLine
{
    // The square of a weak signal is weaker still: longer windows, so that its line stands out.
    private const int LongerWindows = 4;
    private const double LeastRatio = 3;

    private readonly double _sampleRate;
    private readonly WindowSpectrum _spectrum;
    private readonly float[] _re;
    private readonly float[] _im;

    /// <summary>Prepares the tables.</summary>
    public SquaringLine(int spectrumSize, double sampleRate, int longestBlock)
    {
        _sampleRate = sampleRate;
        _spectrum = new WindowSpectrum(LongerWindows * spectrumSize);
        _re = new float[longestBlock];
        _im = new float[longestBlock];
    }

    /// <summary>Looks for lines: a tone that does not belong to the signal has one too.</summary>
    /// <param name="block">The samples.</param>
    /// <param name="statistics">Of the same samples; their mean is taken off.</param>
    /// <param name="carriers">Written: the carriers that the lines speak for, the strongest first.</param>
    /// <returns>How many.</returns>
    public int Measure(in ComplexBlock block, in BlockStatistics statistics, Span<double> carriers)
    {
        float dcI = (float)statistics.MeanI, dcQ = (float)statistics.MeanQ;
        for (int k = 0; k < block.Length; k++)
        {
            float i = block.I[k] - dcI, q = block.Q[k] - dcQ;
            _re[k] = (i * i) - (q * q);
            _im[k] = 2 * i * q;
        }

        _spectrum.Measure(new ComplexBlock(0, _re.AsSpan(0, block.Length), _im.AsSpan(0, block.Length)));
        Span<SpectralLine> lines = stackalloc SpectralLine[carriers.Length];
        int found = LineSearch.Strongest(_spectrum, _sampleRate, 0, 2 * BandSearch.RangeHz, -1, LeastRatio, lines);
        for (int k = 0; k < found; k++)
        {
            carriers[k] = lines[k].Hz / 2;
        }

        return found;
    }
}
