using System.Runtime.CompilerServices;

namespace Cockpit.Core.Dsp;

/// <summary>What only a QPSK signal has: a line of its squared envelope at the symbol rate, and one of its fourth power at four times its carrier.</summary>
/// <remarks>
/// The block is filtered to the pulse first (fast convolution, root raised cosine response about the carrier).
/// Source: J. G. Proakis, Digital Communications, 4th ed., section 6.3 (timing line); fourth power law, text-book.
/// </remarks>
public sealed class QpskLines
{
    private const int FilterSize = 2048;
    private const int Overlap = 128;
    private const int CarrierSum = 64;
    private const int CarrierSize = 1024;
    private const int ClockSum = 1024;
    private const int ClockSize = 256;
    private const double ClockPpm = 70;
    private const double RollOff = 0.5;

    private readonly double _sampleRate;
    private readonly double _symbolRate;
    private readonly Fft _fft = new(FilterSize);
    private readonly float[] _re = new float[FilterSize];
    private readonly float[] _im = new float[FilterSize];
    private readonly float[] _response = new float[FilterSize];
    private readonly float[] _carrierRe;
    private readonly float[] _carrierIm;
    private readonly float[] _clockRe;
    private readonly float[] _clockIm;
    private readonly WindowSpectrum _carrier = new(CarrierSize);
    private readonly WindowSpectrum _clock = new(ClockSize);
    private double _responseHz = double.NaN;

    /// <summary>Prepares the tables.</summary>
    /// <param name="sampleRate">Samples a second.</param>
    /// <param name="symbolRate">Symbols a second.</param>
    /// <param name="longestBlock">Samples of the longest block.</param>
    public QpskLines(double sampleRate, double symbolRate, int longestBlock)
    {
        _sampleRate = sampleRate;
        _symbolRate = symbolRate;
        _carrierRe = new float[(longestBlock / CarrierSum) + 1];
        _carrierIm = new float[_carrierRe.Length];
        _clockRe = new float[(longestBlock / ClockSum) + 1];
        _clockIm = new float[_clockRe.Length];
    }

    /// <summary>Measures the middle half of a block, at half the cost: enough where the lines stand out by far.</summary>
    /// <param name="block">The samples.</param>
    /// <param name="offsetHz">The carrier by the spectrum; good to a few kilohertz.</param>
    /// <returns>As <see cref="Measure"/>.</returns>
    public (double ClockRatio, double? OffsetHz) MeasureHalf(in ComplexBlock block, double offsetHz) =>
        Measure(block.Slice(block.Length / 4, block.Length / 2), offsetHz);

    /// <summary>Measures a block.</summary>
    /// <param name="block">The samples.</param>
    /// <param name="offsetHz">The carrier by the spectrum; good to a few kilohertz.</param>
    /// <returns>How far the timing line stands out of its surroundings, and the carrier by the fourth power; null where its line does not stand out.</returns>
    public (double ClockRatio, double? OffsetHz) Measure(in ComplexBlock block, double offsetHz)
    {
        const double LeastRatio = 2.5;
        SetResponse(offsetHz);
        (int carriers, int clocks) = Filter(block, 4 * _responseHz);
        _clock.Measure(new ComplexBlock(0, _clockRe.AsSpan(0, clocks), _clockIm.AsSpan(0, clocks)));
        _carrier.Measure(new ComplexBlock(0, _carrierRe.AsSpan(0, carriers), _carrierIm.AsSpan(0, carriers)));
        SpectralLine line = default;
        int found = LineSearch.Strongest(_carrier, _sampleRate / CarrierSum, 0, 16_000, -1, LeastRatio, new Span<SpectralLine>(ref line));
        return (ClockRatio(), found > 0 ? _responseHz + (line.Hz / 4) : null);
    }

    private double ClockRatio()
    {
        double step = _sampleRate / ClockSum / ClockSize;
        int reach = (int)Math.Ceiling(_symbolRate * ClockPpm * 1e-6 / step) + 1;
        double peak = 0, others = 0;
        int count = 0;
        for (int k = 0; k < ClockSize; k++)
        {
            bool near = Math.Abs(k - (ClockSize / 2)) <= reach;
            peak = near ? Math.Max(peak, _clock.Power[k]) : peak;
            others += near ? 0 : _clock.Power[k];
            count += near ? 0 : 1;
        }

        return others > 0 ? peak * count / others : 0;
    }

    // The response stands at whole bins, digit-reversed like the spectrum it is multiplied with.
    private void SetResponse(double offsetHz)
    {
        double step = _sampleRate / FilterSize;
        double centre = Math.Round(offsetHz / step) * step;
        if (centre == _responseHz)
        {
            return;
        }

        _responseHz = centre;
        for (int f = 0; f < FilterSize; f++)
        {
            double hz = (f < FilterSize / 2 ? f : f - FilterSize) * step;
            double rates = Math.Abs(Math.IEEERemainder(hz - centre, _sampleRate)) / _symbolRate;
            _response[_fft.Order[f]] = rates <= (1 - RollOff) / 2 ? 1f
                : rates >= (1 + RollOff) / 2 ? 0f
                : (float)Math.Cos(Math.PI / (2 * RollOff) * (rates - ((1 - RollOff) / 2)));
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private (int Carriers, int Clocks) Filter(in ComplexBlock block, double fourthHz)
    {
        Phasor carrier = new(-fourthHz / _sampleRate), clock = new(-_symbolRate / _sampleRate);
        double sumRe = 0, sumIm = 0, clockRe = 0, clockIm = 0;
        int n = 0, carriers = 0, clocks = 0;
        for (int start = 0; start + FilterSize <= block.Length; start += FilterSize - Overlap)
        {
            block.I.Slice(start, FilterSize).CopyTo(_re);
            block.Q.Slice(start, FilterSize).CopyTo(_im);
            Convolve();
            for (int k = Overlap / 2; k < FilterSize - (Overlap / 2); k++)
            {
                double r = _re[k], i = _im[k];
                double power = (r * r) + (i * i);
                double r2 = (r * r) - (i * i), i2 = 2 * r * i;
                double r4 = (r2 * r2) - (i2 * i2), i4 = 2 * r2 * i2;
                sumRe += (r4 * carrier.Re) - (i4 * carrier.Im);
                sumIm += (r4 * carrier.Im) + (i4 * carrier.Re);
                clockRe += power * clock.Re;
                clockIm += power * clock.Im;
                carrier.Turn();
                clock.Turn();
                n++;
                if (n % CarrierSum == 0)
                {
                    _carrierRe[carriers] = (float)sumRe;
                    _carrierIm[carriers++] = (float)sumIm;
                    sumRe = sumIm = 0;
                }

                if (n % ClockSum == 0)
                {
                    _clockRe[clocks] = (float)clockRe;
                    _clockIm[clocks++] = (float)clockIm;
                    clockRe = clockIm = 0;
                }
            }
        }

        return (carriers, clocks);
    }

    // The transform back is the transform of the conjugate; its input must stand in order, its output does not.
    private void Convolve()
    {
        _fft.Forward(_re, _im);
        Span<float> re = stackalloc float[FilterSize], im = stackalloc float[FilterSize];
        ReadOnlySpan<int> order = _fft.Order;
        for (int f = 0; f < FilterSize; f++)
        {
            int at = order[f];
            re[f] = _re[at] * _response[at];
            im[f] = -_im[at] * _response[at];
        }

        _fft.Forward(re, im);
        const float Scale = 1f / FilterSize;
        for (int f = 0; f < FilterSize; f++)
        {
            _re[f] = re[order[f]] * Scale;
            _im[f] = -im[order[f]] * Scale;
        }
    }
}
