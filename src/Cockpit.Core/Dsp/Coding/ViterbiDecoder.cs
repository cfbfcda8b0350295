using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace Cockpit.Core.Dsp.Coding;

/// <summary>Finds the most likely bits behind soft coded bits of the code K = 7, 171/133; runs on without end.</summary>
/// <remarks>
/// Source: A. Viterbi, IEEE Trans. Inf. Theory 13 (1967), 260. All 64 states advance in four vectors of 16-bit sums; where AVX2 is
/// missing a plain loop gives the same decisions. Allocates nothing after it was made.
/// </remarks>
public sealed class ViterbiDecoder
{
    /// <summary>Bits taken at once.</summary>
    public const int BlockBits = 1024;

    /// <summary>How many bits later a bit is decided: 18 times the constraint length, enough for the punctured code (common practice, no source).</summary>
    public const int Depth = 128;

    /// <summary>Largest size of a soft value.</summary>
    public const int LargestSoft = 31;

    // 128 steps add at most 128 * 62 to the sums, well inside 16 bits.
    private const int StepsBetweenRescaling = 128;
    private const int Lanes = 16;
    private const int HalfStates = ConvolutionalCode.States / 2;

    private static readonly short[] FirstSigns = Signs(ConvolutionalCode.First);
    private static readonly short[] SecondSigns = Signs(ConvolutionalCode.Second);
    private static readonly byte[] Places = MakePlaces();

    private readonly bool _vectors;
    private readonly short[] _sums = new short[ConvolutionalCode.States];
    private readonly short[] _next = new short[ConvolutionalCode.States];
    private readonly ulong[] _decisions = new ulong[Depth + BlockBits];

    /// <summary>A decoder that knows nothing of the state.</summary>
    public ViterbiDecoder()
        : this(Avx2.IsSupported)
    {
    }

    /// <summary>The same, with the choice of the loop.</summary>
    /// <param name="vectors">Whether to use AVX2; it must be there.</param>
    internal ViterbiDecoder(bool vectors) => _vectors = vectors;

    /// <summary>Forgets everything.</summary>
    public void Reset()
    {
        Array.Clear(_sums);
        Array.Clear(_decisions);
    }

    /// <summary>Takes 1024 pairs and decides 1024 bits, those that lie <see cref="Depth"/> further back.</summary>
    /// <param name="soft">C1, C2 of each bit: positive = 0, size = certainty up to 31, 0 = not sent.</param>
    /// <param name="bits">Receives 1024 bits, 0 or 1 each. The first <see cref="Depth"/> after the start mean nothing.</param>
    public void Decode(ReadOnlySpan<sbyte> soft, Span<byte> bits)
    {
        if (soft.Length != 2 * BlockBits || bits.Length != BlockBits)
        {
            throw new ArgumentException($"{BlockBits} bits are decoded at once", nameof(soft));
        }

        Span<ulong> decisions = _decisions;
        for (int step = 0; step < BlockBits; step += StepsBetweenRescaling)
        {
            ReadOnlySpan<sbyte> part = soft.Slice(2 * step, 2 * StepsBetweenRescaling);
            Span<ulong> kept = decisions.Slice(Depth + step, StepsBetweenRescaling);
            if (_vectors)
            {
                AdvanceVectors(_sums, part, kept);
            }
            else
            {
                AdvancePlainly(part, kept);
            }
        }

        TraceBack(bits);
        decisions[BlockBits..].CopyTo(decisions);
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void AdvanceVectors(Span<short> sums, ReadOnlySpan<sbyte> soft, Span<ulong> decisions)
    {
        Vector256<short> first0 = Vector256.Create<short>(FirstSigns.AsSpan(0, Lanes));
        Vector256<short> first1 = Vector256.Create<short>(FirstSigns.AsSpan(Lanes, Lanes));
        Vector256<short> second0 = Vector256.Create<short>(SecondSigns.AsSpan(0, Lanes));
        Vector256<short> second1 = Vector256.Create<short>(SecondSigns.AsSpan(Lanes, Lanes));
        Vector256<short> least = Vector256.Create(sums[0]);
        Vector256<short> a0 = Vector256.Create<short>(sums[..Lanes]) - least;
        Vector256<short> a1 = Vector256.Create<short>(sums.Slice(Lanes, Lanes)) - least;
        Vector256<short> b0 = Vector256.Create<short>(sums.Slice(2 * Lanes, Lanes)) - least;
        Vector256<short> b1 = Vector256.Create<short>(sums.Slice(3 * Lanes, Lanes)) - least;
        for (int step = 0; step < decisions.Length; step++)
        {
            Vector256<short> c1 = Vector256.Create((short)soft[2 * step]);
            Vector256<short> c2 = Vector256.Create((short)soft[(2 * step) + 1]);
            Vector256<short> branch0 = (c1 * first0) + (c2 * second0);
            Vector256<short> branch1 = (c1 * first1) + (c2 * second1);
            uint low = Butterfly(a0, b0, branch0, out Vector256<short> n0, out Vector256<short> n1);
            uint high = Butterfly(a1, b1, branch1, out b0, out b1);
            (a0, a1) = (n0, n1);
            decisions[step] = low | ((ulong)high << 32);
        }

        a0.CopyTo(sums);
        a1.CopyTo(sums[Lanes..]);
        b0.CopyTo(sums[(2 * Lanes)..]);
        b1.CopyTo(sums[(3 * Lanes)..]);
    }

    // States i and i + 32 lead to 2i and 2i + 1; both vectors hold the oldest and the newest bit, so that one branch serves four paths.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static uint Butterfly(Vector256<short> a, Vector256<short> b, Vector256<short> branch, out Vector256<short> low, out Vector256<short> high)
    {
        Vector256<short> fromA = a + branch;
        Vector256<short> fromB = b - branch;
        Vector256<short> oddFromA = a - branch;
        Vector256<short> oddFromB = b + branch;
        Vector256<short> even = Vector256.Max(fromA, fromB);
        Vector256<short> odd = Vector256.Max(oddFromA, oddFromB);
        Vector256<sbyte> chosen = Avx2.PackSignedSaturate(Vector256.GreaterThan(fromB, fromA), Vector256.GreaterThan(oddFromB, oddFromA));
        Vector256<short> lower = Avx2.UnpackLow(even, odd);
        Vector256<short> upper = Avx2.UnpackHigh(even, odd);
        low = Avx2.Permute2x128(lower, upper, 0x20);
        high = Avx2.Permute2x128(lower, upper, 0x31);
        return chosen.ExtractMostSignificantBits();
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void AdvancePlainly(ReadOnlySpan<sbyte> soft, Span<ulong> decisions)
    {
        short least = _sums[0];
        for (int i = 0; i < _sums.Length; i++)
        {
            _sums[i] -= least;
        }

        for (int step = 0; step < decisions.Length; step++)
        {
            ulong chosen = 0;
            for (int i = 0; i < HalfStates; i++)
            {
                int branch = (soft[2 * step] * FirstSigns[i]) + (soft[(2 * step) + 1] * SecondSigns[i]);
                (int fromA, int fromB) = (_sums[i] + branch, _sums[i + HalfStates] - branch);
                (int oddFromA, int oddFromB) = (_sums[i] - branch, _sums[i + HalfStates] + branch);
                _next[2 * i] = (short)Math.Max(fromA, fromB);
                _next[(2 * i) + 1] = (short)Math.Max(oddFromA, oddFromB);
                chosen |= (fromB > fromA ? 1UL : 0UL) << Places[2 * i];
                chosen |= (oddFromB > oddFromA ? 1UL : 0UL) << Places[(2 * i) + 1];
            }

            decisions[step] = chosen;
            _next.CopyTo(_sums, 0);
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void TraceBack(Span<byte> bits)
    {
        uint state = Best();
        ReadOnlySpan<ulong> decisions = _decisions;
        ReadOnlySpan<byte> places = Places;
        for (int step = decisions.Length - 1; step >= BlockBits; step--)
        {
            state = Previous(decisions[step], state, places);
        }

        for (int step = BlockBits - 1; step >= 0; step--)
        {
            bits[step] = (byte)(state & 1);
            state = Previous(decisions[step], state, places);
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static uint Previous(ulong decisions, uint state, ReadOnlySpan<byte> places) =>
        (state >> 1) | ((uint)(decisions >> places[(int)state]) & 1) << 5;

    private uint Best()
    {
        int best = 0;
        for (int i = 1; i < _sums.Length; i++)
        {
            best = _sums[i] > _sums[best] ? i : best;
        }

        return (uint)best;
    }

    // +1 where the coded bit of a zero after state i is 0; its register is twice the state.
    private static short[] Signs(Func<uint, int> output)
    {
        short[] signs = new short[HalfStates];
        for (int i = 0; i < signs.Length; i++)
        {
            signs[i] = (short)(1 - (2 * output((uint)(2 * i))));
        }

        return signs;
    }

    // Where the packing of two comparisons leaves the decision of a state.
    private static byte[] MakePlaces()
    {
        byte[] places = new byte[ConvolutionalCode.States];
        for (int state = 0; state < places.Length; state++)
        {
            places[state] = (byte)((state & 0x30) | ((state & 1) << 3) | ((state >> 1) & 7));
        }

        return places;
    }
}
