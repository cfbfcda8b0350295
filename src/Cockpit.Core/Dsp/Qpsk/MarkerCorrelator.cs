using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Cockpit.Core.Dsp.Qpsk;

/// <summary>Correlates symbols with one template for both readings of the second generator and both senses of the spectrum at once.</summary>
/// <remarks>The parts of I, Q, first and second generator are summed apart; the four readings are sums and differences of them.</remarks>
internal sealed class MarkerCorrelator
{
    /// <summary>Readings that come out: bit 0 = second generator inverted, bit 1 = mirrored.</summary>
    public const int Readings = 4;

    private const int Step = 16;
    private readonly int[] _offsets;
    private readonly float[] _signs;
    private readonly int[] _ends = new int[4];

    /// <summary>Prepares the lists.</summary>
    /// <param name="template">What to look for.</param>
    public MarkerCorrelator(MarkerTemplate template)
    {
        Template = template;
        KnownBit[] sorted = [.. template.Bits.ToArray().OrderBy(Group)];
        _offsets = [.. sorted.Select(bit => bit.Offset)];
        _signs = [.. sorted.Select(bit => bit.Sign)];
        for (int group = 0; group < _ends.Length; group++)
        {
            _ends[group] = sorted.Count(bit => Group(bit) <= group);
        }
    }

    /// <summary>What is looked for.</summary>
    public MarkerTemplate Template { get; }

    /// <summary>Squares of the correlations at consecutive positions.</summary>
    /// <param name="i">In-phase symbols, <paramref name="count"/> and the length of the template.</param>
    /// <param name="q">Quadrature symbols.</param>
    /// <param name="count">Positions, a multiple of 16.</param>
    /// <param name="scale">Factor of the squares.</param>
    /// <param name="squares">Receives 4 x count values, reading after reading.</param>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public void Squares(ReadOnlySpan<float> i, ReadOnlySpan<float> q, int count, float scale, Span<float> squares)
    {
        if (i.Length < count + Template.Length || q.Length < count + Template.Length || squares.Length < Readings * count)
        {
            throw new ArgumentException("the symbols do not reach as far as the template", nameof(count));
        }

        ref float x = ref MemoryMarshal.GetReference(i);
        ref float y = ref MemoryMarshal.GetReference(q);
        ref float to = ref MemoryMarshal.GetReference(squares);
        Vector512<float> factor = Vector512.Create(scale);
        for (int n = 0; n < count; n += Step)
        {
            ref float atX = ref Unsafe.Add(ref x, n);
            ref float atY = ref Unsafe.Add(ref y, n);
            (Vector512<float> xi1, Vector512<float> yi1) = Sum(ref atX, ref atY, 0);
            (Vector512<float> xi2, Vector512<float> yi2) = Sum(ref atX, ref atY, 1);
            (Vector512<float> xq1, Vector512<float> yq1) = Sum(ref atX, ref atY, 2);
            (Vector512<float> xq2, Vector512<float> yq2) = Sum(ref atX, ref atY, 3);
            Pair(xi1 + xi2, yi1 + yi2, xq1 + xq2, yq1 + yq2, factor, ref Unsafe.Add(ref to, n), ref Unsafe.Add(ref to, (2 * count) + n));
            Pair(xi1 - xi2, yi1 - yi2, xq1 - xq2, yq1 - yq2, factor, ref Unsafe.Add(ref to, count + n), ref Unsafe.Add(ref to, (3 * count) + n));
        }
    }

    private static int Group(KnownBit bit) => (bit.Quadrature ? 2 : 0) + (bit.Second ? 1 : 0);

    // Sixteen positions at once keep four sums in flight, where eight would wait for each addition.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private (Vector512<float> X, Vector512<float> Y) Sum(ref float x, ref float y, int group)
    {
        Vector256<float> x0 = default, x1 = default, y0 = default, y1 = default;
        ref int offsets = ref MemoryMarshal.GetArrayDataReference(_offsets);
        ref float signs = ref MemoryMarshal.GetArrayDataReference(_signs);
        int end = _ends[group];
        for (int k = group == 0 ? 0 : _ends[group - 1]; k < end; k++)
        {
            nuint offset = (nuint)Unsafe.Add(ref offsets, k);
            Vector256<float> sign = Vector256.Create(Unsafe.Add(ref signs, k));
            x0 = Vector256.FusedMultiplyAdd(sign, Vector256.LoadUnsafe(ref x, offset), x0);
            x1 = Vector256.FusedMultiplyAdd(sign, Vector256.LoadUnsafe(ref x, offset + 8), x1);
            y0 = Vector256.FusedMultiplyAdd(sign, Vector256.LoadUnsafe(ref y, offset), y0);
            y1 = Vector256.FusedMultiplyAdd(sign, Vector256.LoadUnsafe(ref y, offset + 8), y1);
        }

        return (Vector512.Create(x0, x1), Vector512.Create(y0, y1));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Pair(
        Vector512<float> xi, Vector512<float> yi, Vector512<float> xq, Vector512<float> yq, Vector512<float> factor, ref float direct, ref float mirrored)
    {
        Vector512<float> re = xi + yq;
        Vector512<float> im = yi - xq;
        (((re * re) + (im * im)) * factor).StoreUnsafe(ref direct);
        re = xi - yq;
        im = yi + xq;
        (((re * re) + (im * im)) * factor).StoreUnsafe(ref mirrored);
    }
}
