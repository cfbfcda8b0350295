using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Cockpit.Core.Dsp.Qpsk;

/// <summary>The filter matched to the pulse, evaluated between samples at whatever instant is asked for.</summary>
/// <remarks>
/// One set of taps for each of 128 places between two samples: the error of the instant is at most 1/256 sample, -45 dB at 2 samples
/// a symbol. The pulse is cut 4 symbols from its centre, where it is below a hundredth. Filter and interpolation are one product, so any sample rate costs the same way.
/// </remarks>
internal sealed class MatchedFilter
{
    private const int Phases = 128;
    private const double HalfLength = 4.0;
    private static readonly int Lanes = Vector256<float>.Count;

    private readonly float[] _taps;

    /// <summary>Prepares the taps.</summary>
    /// <param name="samplesPerSymbol">Samples in a symbol, 1 or more.</param>
    public MatchedFilter(double samplesPerSymbol)
    {
        int reach = (int)Math.Ceiling(HalfLength * samplesPerSymbol);
        Length = ((2 * reach) + 1 + Lanes - 1) / Lanes * Lanes;
        Centre = (Length - 1) / 2;
        _taps = new float[(Phases + 1) * Length];
        for (int phase = 0; phase <= Phases; phase++)
        {
            for (int k = 0; k < Length; k++)
            {
                double t = (k - Centre - ((double)phase / Phases)) / samplesPerSymbol;
                _taps[(phase * Length) + k] = Math.Abs(t) > HalfLength ? 0.0f : (float)(PulseShape.At(t) / samplesPerSymbol);
            }
        }
    }

    /// <summary>Samples that one value needs.</summary>
    public int Length { get; }

    /// <summary>A value at instant x needs the samples from floor(x) - Centre on.</summary>
    public int Centre { get; }

    /// <summary>Values at evenly spaced instants.</summary>
    /// <param name="i">In-phase samples.</param>
    /// <param name="q">Quadrature samples.</param>
    /// <param name="first">Where the samples of the first value start, fractional: its instant less <see cref="Centre"/>.</param>
    /// <param name="step">Samples from one value to the next.</param>
    /// <param name="outI">Receives the values.</param>
    /// <param name="outQ">Receives the values.</param>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public void Apply(ReadOnlySpan<float> i, ReadOnlySpan<float> q, double first, double step, Span<float> outI, Span<float> outQ)
    {
        int last = (int)(first + (step * (outI.Length - 1)));
        if (first < 0 || last + Length > i.Length || q.Length != i.Length || outQ.Length != outI.Length)
        {
            throw new ArgumentException("the samples do not reach as far as the values", nameof(first));
        }

        ref float x = ref MemoryMarshal.GetReference(i);
        ref float y = ref MemoryMarshal.GetReference(q);
        ref float taps = ref MemoryMarshal.GetArrayDataReference(_taps);
        int length = Length;
        for (int n = 0; n < outI.Length; n++)
        {
            double at = first + (step * n);
            int whole = (int)at;
            ref float h = ref Unsafe.Add(ref taps, (int)(((at - whole) * Phases) + 0.5) * length);
            Vector256<float> re = Vector256<float>.Zero;
            Vector256<float> im = Vector256<float>.Zero;
            for (int k = 0; k < length; k += Vector256<float>.Count)
            {
                Vector256<float> tap = Vector256.LoadUnsafe(ref h, (nuint)k);
                re = Vector256.FusedMultiplyAdd(tap, Vector256.LoadUnsafe(ref x, (nuint)(whole + k)), re);
                im = Vector256.FusedMultiplyAdd(tap, Vector256.LoadUnsafe(ref y, (nuint)(whole + k)), im);
            }

            outI[n] = Vector256.Sum(re);
            outQ[n] = Vector256.Sum(im);
        }
    }
}
