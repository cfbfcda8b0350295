using Cockpit.Core.Dsp.Coding;

namespace Cockpit.Core.Dsp.Qpsk;

/// <summary>Correlations with one rate's marker, folded over the cycle in which it repeats and summed from cycle to cycle.</summary>
internal sealed class MarkerSums
{
    private readonly CodeRate _rate;
    private readonly bool _differential;
    private readonly MarkerCorrelator[] _correlators;
    private readonly float[][] _sums;
    private readonly float[] _squares = new float[MarkerCorrelator.Readings * SymbolBlock.Length];
    private readonly int _readings;

    /// <summary>Empty sums.</summary>
    /// <param name="rate">How much of the code is sent.</param>
    /// <param name="differential">Whether NRZ-M is applied.</param>
    public MarkerSums(CodeRate rate, bool differential)
    {
        (_rate, _differential) = (rate, differential);
        Cycle = MarkerTemplate.SymbolsInCycle(rate);
        _correlators = [.. Enumerable.Range(0, MarkerTemplate.FramesInCycle(rate)).Select(frame => new MarkerCorrelator(MarkerTemplate.Of(rate, differential, frame)))];
        _sums = [.. Enumerable.Range(0, MarkerCorrelator.Readings).Select(_ => new float[Cycle])];

        // With code 1/2 the second generator is all of Q: its inversion is the mirrored reading, and bit 0 would say the same again.
        _readings = rate == CodeRate.Half ? 1 : 2;
    }

    /// <summary>Symbols after which the marker repeats.</summary>
    public int Cycle { get; }

    /// <summary>Correlations in each sum: one for each frame.</summary>
    public int Count(int blocks) => blocks * SymbolBlock.Length * _correlators.Length / Cycle;

    /// <summary>Starts anew.</summary>
    public void Clear()
    {
        foreach (float[] sums in _sums)
        {
            Array.Clear(sums);
        }
    }

    /// <summary>Adds the correlations that start in a block or in its margin's second half.</summary>
    /// <param name="block">Symbols.</param>
    public void Add(in SymbolBlock block)
    {
        for (int frame = 0; frame < _correlators.Length; frame++)
        {
            MarkerCorrelator correlator = _correlators[frame];
            float scale = 1.0f / (correlator.Template.Bits.Length * Math.Max(block.Power, 1e-20f));
            correlator.Squares(block.I, block.Q, SymbolBlock.Length, scale, _squares);
            long start = block.Start - MarkerTemplate.StartOf(_rate, frame);
            int at = (int)(((start % Cycle) + Cycle) % Cycle);
            for (int reading = 0; reading < MarkerCorrelator.Readings; reading += 3 - _readings)
            {
                Fold(_squares.AsSpan(reading * SymbolBlock.Length, SymbolBlock.Length), _sums[reading], at);
            }
        }
    }

    /// <summary>The largest of all sums.</summary>
    /// <param name="position">Symbol number modulo the cycle at which the cycle starts.</param>
    /// <param name="variant">What its reading means.</param>
    public float Largest(out int position, out MarkerVariant variant)
    {
        (float largest, position, variant) = (0.0f, 0, default);
        for (int reading = 0; reading < MarkerCorrelator.Readings; reading += 3 - _readings)
        {
            int at = IndexOfLargest(_sums[reading]);
            if (_sums[reading][at] > largest)
            {
                (largest, position) = (_sums[reading][at], at);
                variant = new MarkerVariant(new TransmitVariant(_rate, (reading & 1) != 0, _differential), (reading & 2) != 0);
            }
        }

        return largest;
    }

    private static void Fold(ReadOnlySpan<float> squares, Span<float> sums, int at)
    {
        int before = Math.Min(squares.Length, sums.Length - at);
        VectorMath.Add(squares[..before], sums[at..]);
        VectorMath.Add(squares[before..], sums);
    }

    private static int IndexOfLargest(ReadOnlySpan<float> sums) => sums.IndexOf(VectorMath.Largest(sums));
}
