using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Cockpit.Core.Dsp;

/// <summary>What can be said of a block without any spectrum.</summary>
/// <param name="MeanI">Mean of the in-phase components: DC.</param>
/// <param name="MeanQ">Mean of the quadrature components.</param>
/// <param name="Power">Mean of I^2 + Q^2, full scale 1 for each component.</param>
/// <param name="ClipShare">Components at a rail, of all components, 0 to 1.</param>
public readonly record struct BlockStatistics(double MeanI, double MeanQ, double Power, double ClipShare)
{
    private const int Stretch = 4096;

    /// <summary>Level, dBFS; null where every sample is zero.</summary>
    public double? LevelDbfs => Power > 0 ? 10 * Math.Log10(Power) : null;

    /// <summary>Power of the DC alone.</summary>
    public double DcPower => (MeanI * MeanI) + (MeanQ * MeanQ);

    /// <summary>Measures a block.</summary>
    /// <param name="block">The samples.</param>
    /// <param name="format">What they were converted from: it says where the rails are.</param>
    public static BlockStatistics Of(in ComplexBlock block, SampleFormat format)
    {
        double sumI = 0, sumQ = 0, power = 0;
        long clipped = 0;
        for (int start = 0; start < block.Length; start += Stretch)
        {
            int length = Math.Min(Stretch, block.Length - start);
            Sums sums = Add(block.I.Slice(start, length), block.Q.Slice(start, length), format.LowerRail(), format.UpperRail());
            sumI += sums.I;
            sumQ += sums.Q;
            power += sums.Power;
            clipped += sums.Clipped;
        }

        double n = Math.Max(1, block.Length);
        return new BlockStatistics(sumI / n, sumQ / n, power / n, clipped / (2 * n));
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static Sums Add(ReadOnlySpan<float> i, ReadOnlySpan<float> q, float lower, float upper)
    {
        Vector256<float> sumI = default, sumQ = default, power = default;
        Vector256<float> low = Vector256.Create(lower), high = Vector256.Create(upper);
        int clipped = 0, k = 0;
        for (; k + Vector256<float>.Count <= i.Length; k += Vector256<float>.Count)
        {
            Vector256<float> a = Vector256.LoadUnsafe(ref MemoryMarshal.GetReference(i), (nuint)k);
            Vector256<float> b = Vector256.LoadUnsafe(ref MemoryMarshal.GetReference(q), (nuint)k);
            sumI += a;
            sumQ += b;
            power += (a * a) + (b * b);
            Vector256<float> rail = Vector256.Max(Vector256.Max(a, b) - high, low - Vector256.Min(a, b));
            if (Vector256.GreaterThanOrEqualAny(rail, Vector256<float>.Zero))
            {
                clipped += Count(a, low, high) + Count(b, low, high);
            }
        }

        double restI = Vector256.Sum(sumI), restQ = Vector256.Sum(sumQ), restPower = Vector256.Sum(power);
        for (; k < i.Length; k++)
        {
            restI += i[k];
            restQ += q[k];
            restPower += (i[k] * i[k]) + (q[k] * q[k]);
            clipped += (i[k] >= upper || i[k] <= lower ? 1 : 0) + (q[k] >= upper || q[k] <= lower ? 1 : 0);
        }

        return new Sums(restI, restQ, restPower, clipped);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static int Count(Vector256<float> values, Vector256<float> low, Vector256<float> high) =>
        BitOperations.PopCount((Vector256.GreaterThanOrEqual(values, high) | Vector256.LessThanOrEqual(values, low)).ExtractMostSignificantBits());

    private readonly record struct Sums(double I, double Q, double Power, int Clipped);
}
