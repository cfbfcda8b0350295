namespace Cockpit.Core.Dsp;

/// <summary>The carrier of a binary phase modulation, whatever its swing, from the line that its square has at twice its frequency.</summary>
/// <remarks>Source: F. M. Gardner, Phaselock Techniques, 3rd ed., chapter 13 (squaring loop).</remarks>
public sealed class SquaringLine
{
    private const double LeastRatio = 2.5;

    private readonly double _sampleRate;
    private readonly WindowSpectrum _spectrum;
    private readonly float[] _re;
    private readonly float[] _im;

    /// <summary>Prepares the tables.</summary>
    public SquaringLine(int spectrumSize, double sampleRate, int longestBlock)
    {
        _sampleRate = sampleRate;
        _spectrum = new WindowSpectrum(spectrumSize);
        _re = new float[longestBlock];
        _im = new float[longestBlock];
    }

    /// <summary>Looks for the line.</summary>
    /// <param name="block">The samples.</param>
    /// <param name="statistics">Of the same samples; their mean is taken off.</param>
    /// <param name="nearHz">The carrier by the spectrum.</param>
    /// <returns>The carrier; null where there is no line within 6 kHz.</returns>
    public double? Measure(in ComplexBlock block, in BlockStatistics statistics, double nearHz)
    {
        const double HalfRangeHz = 6_000;
        float dcI = (float)statistics.MeanI, dcQ = (float)statistics.MeanQ;
        for (int k = 0; k < block.Length; k++)
        {
            float i = block.I[k] - dcI, q = block.Q[k] - dcQ;
            _re[k] = (i * i) - (q * q);
            _im[k] = 2 * i * q;
        }

        _spectrum.Measure(new ComplexBlock(0, _re.AsSpan(0, block.Length), _im.AsSpan(0, block.Length)));
        SpectralLine line = default;
        int found = LineSearch.Strongest(_spectrum, _sampleRate, 2 * nearHz, 2 * HalfRangeHz, -1, LeastRatio, new Span<SpectralLine>(ref line));
        return found > 0 ? line.Hz / 2 : null;
    }
}
