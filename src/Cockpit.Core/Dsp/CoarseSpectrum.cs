namespace Cockpit.Core.Dsp;

/// <summary>The spectrum that templates are fitted to: neighbouring bins of the fine one joined, the ends and the centre of the band left out.</summary>
public sealed class CoarseSpectrum
{
    // A front end falls off near the ends of its band; the middle carries what the receiver itself leaks.
    private const double UsableShare = 0.41;
    private const double WantedStepHz = 1400;

    private readonly int _group;
    private readonly float[] _power;
    private readonly float[] _sorted;
    private readonly bool[] _clean;

    /// <summary>Prepares the tables.</summary>
    /// <param name="fineSize">Bins of the fine spectrum.</param>
    /// <param name="sampleRate">Samples a second.</param>
    /// <param name="seconds">Length of a block.</param>
    public CoarseSpectrum(int fineSize, double sampleRate, double seconds)
    {
        double fineStep = sampleRate / fineSize;
        _group = 1;
        while (fineStep * _group * 1.42 < WantedStepHz)
        {
            _group *= 2;
        }

        int size = fineSize / _group;
        StepHz = fineStep * _group;
        FirstHz = (-0.5 * sampleRate) + (0.5 * (_group - 1) * fineStep);
        Looks = seconds * StepHz;
        SampleRate = sampleRate;
        _power = new float[size];
        _sorted = new float[size];
        _clean = new bool[size];
        for (int k = 0; k < size; k++)
        {
            double hz = FirstHz + (k * StepHz);
            _clean[k] = Math.Abs(hz) <= UsableShare * sampleRate && Math.Abs(hz) > (4 * fineStep) + (0.5 * StepHz);
        }
    }

    /// <summary>Samples a second.</summary>
    public double SampleRate { get; }

    /// <summary>Frequency of the first bin.</summary>
    public double FirstHz { get; }

    /// <summary>Width of a bin.</summary>
    public double StepHz { get; }

    /// <summary>Independent values averaged in a bin.</summary>
    public double Looks { get; }

    /// <summary>The spectrum; white noise of power P gives P in every bin.</summary>
    public ReadOnlySpan<float> Power => _power;

    /// <summary>Bins that may be used at all.</summary>
    public ReadOnlySpan<bool> Clean => _clean;

    /// <summary>Below this lies a fifth of the usable bins: a first guess of the floor.</summary>
    public double LowerFifth { get; private set; }

    /// <summary>The mean of the usable bins over their lower fifth.</summary>
    public double Unevenness { get; private set; }

    /// <summary>Bins.</summary>
    public int Size => _power.Length;

    /// <summary>Takes a fine spectrum.</summary>
    public void Take(ReadOnlySpan<float> fine)
    {
        int count = 0;
        double total = 0;
        for (int k = 0; k < _power.Length; k++)
        {
            float sum = 0;
            foreach (float bin in fine.Slice(k * _group, _group))
            {
                sum += bin;
            }

            _power[k] = sum / _group;
            if (_clean[k])
            {
                _sorted[count++] = _power[k];
                total += _power[k];
            }
        }

        Span<float> sorted = _sorted.AsSpan(0, count);
        sorted.Sort();
        LowerFifth = Math.Max(sorted[count / 5], 1e-20f);
        Unevenness = total / count / LowerFifth;
    }

    /// <summary>The floor where there is no signal but perhaps lines and interferers: the mean of what does not stand out.</summary>
    public double QuietFloor()
    {
        double limit = double.MaxValue, mean = LowerFifth;
        double width = 1 + (4.5 / Math.Sqrt(Looks));
        for (int round = 0; round < 8; round++)
        {
            double sum = 0;
            int count = 0;
            for (int k = 0; k < _power.Length; k++)
            {
                if (_clean[k] && _power[k] < limit)
                {
                    sum += _power[k];
                    count++;
                }
            }

            mean = count > 0 ? sum / count : mean;
            limit = mean * width;
        }

        return mean;
    }

    /// <summary>Where a frequency stands among the bins, fractional.</summary>
    public double IndexOf(double hz) => (hz - FirstHz) / StepHz;
}
