using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Cockpit.Core.Dsp.Qpsk;

/// <summary>Small loops over spans.</summary>
internal static class VectorMath
{
    /// <summary>Adds values to sums.</summary>
    public static void Add(ReadOnlySpan<float> values, Span<float> sums)
    {
        sums = sums[..values.Length];
        ref float from = ref MemoryMarshal.GetReference(values);
        ref float to = ref MemoryMarshal.GetReference(sums);
        int n = 0;
        for (; n + Vector256<float>.Count <= values.Length; n += Vector256<float>.Count)
        {
            (Vector256.LoadUnsafe(ref from, (nuint)n) + Vector256.LoadUnsafe(ref to, (nuint)n)).StoreUnsafe(ref to, (nuint)n);
        }

        for (; n < values.Length; n++)
        {
            sums[n] += values[n];
        }
    }

    /// <summary>The largest of at least 8 values.</summary>
    public static float Largest(ReadOnlySpan<float> values)
    {
        ref float from = ref MemoryMarshal.GetReference(values);
        Vector256<float> largest = Vector256.Create(values[..Vector256<float>.Count]);
        for (int n = Vector256<float>.Count; n + Vector256<float>.Count <= values.Length; n += Vector256<float>.Count)
        {
            largest = Vector256.Max(largest, Vector256.LoadUnsafe(ref from, (nuint)n));
        }

        float best = largest[0];
        for (int lane = 1; lane < Vector256<float>.Count; lane++)
        {
            best = Math.Max(best, largest[lane]);
        }

        for (int n = values.Length - (values.Length % Vector256<float>.Count); n < values.Length; n++)
        {
            best = Math.Max(best, values[n]);
        }

        return best;
    }
}
