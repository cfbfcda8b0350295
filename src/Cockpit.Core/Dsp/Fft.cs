using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Cockpit.Core.Dsp;

/// <summary>Fast Fourier transform of one size, forward, in place, single precision; the result stands in digit-reversed order.</summary>
/// <remarks>
/// Own code because it is the hottest loop of the meter: radix 4, decimation in frequency, components apart, so that every stage but the
/// last is plain vector arithmetic, and nobody sorts what is only averaged. Allocates when it is made, never afterwards; one at a time.
/// Relative error about 2e-7. Source: J. W. Cooley, J. W. Tukey, Mathematics of Computation 19 (1965), 297; the radix-4 butterfly is text-book.
/// </remarks>
public sealed class Fft
{
    private readonly Stage[] _stages;
    private readonly int[] _order;

    /// <summary>Prepares the tables.</summary>
    /// <param name="size">A power of two, 16 or more.</param>
    public Fft(int size)
    {
        if (size < 16 || (size & (size - 1)) != 0)
        {
            throw new ArgumentException("the size must be a power of two, 16 or more", nameof(size));
        }

        Size = size;
        var stages = new List<Stage>();
        int span = size;
        for (; span > 8; span /= 4)
        {
            stages.Add(new Stage(span));
        }

        LastSpan = span;
        _stages = [.. stages];
        _order = [.. Enumerable.Range(0, size).Select(f => PositionOf(f, size))];
    }

    /// <summary>Samples of a transform.</summary>
    public int Size { get; }

    /// <summary>At which position each frequency stands after the transform, by the number of the frequency from 0 to size - 1.</summary>
    public ReadOnlySpan<int> Order => _order;

    private int LastSpan { get; }

    /// <summary>Transforms in place: X[f] = sum of x[n] exp(-2 pi i f n / size), found at <see cref="Order"/>[f].</summary>
    /// <param name="re">Real parts; size values.</param>
    /// <param name="im">Imaginary parts; size values.</param>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public void Forward(Span<float> re, Span<float> im)
    {
        if (re.Length != Size || im.Length != Size)
        {
            throw new ArgumentException("as many samples as the size of the transform are needed", nameof(re));
        }

        ref float r = ref MemoryMarshal.GetReference(re);
        ref float i = ref MemoryMarshal.GetReference(im);
        foreach (Stage stage in _stages)
        {
            for (int start = 0; start < Size; start += stage.Quarter * 4)
            {
                stage.Run(ref Unsafe.Add(ref r, start), ref Unsafe.Add(ref i, start));
            }
        }

        if (LastSpan == 8)
        {
            LastEights(re, im);
        }
        else
        {
            LastFours(re, im);
        }
    }

    private static int PositionOf(int frequency, int size) =>
        size <= 2 ? frequency : ((frequency % 4) * (size / 4)) + PositionOf(frequency / 4, size / 4);

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void LastFours(Span<float> re, Span<float> im)
    {
        for (int k = 0; k + 3 < re.Length && k + 3 < im.Length; k += 4)
        {
            Four(ref re[k], ref im[k], 1);
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void LastEights(Span<float> re, Span<float> im)
    {
        const float Half = 0.70710678f;
        for (int k = 0; k + 7 < re.Length && k + 7 < im.Length; k += 8)
        {
            ref float r = ref re[k];
            ref float i = ref im[k];
            Four(ref r, ref i, 2);
            Four(ref Unsafe.Add(ref r, 1), ref Unsafe.Add(ref i, 1), 2);

            // The odd column is turned by exp(-i pi f / 4) before the last butterflies.
            (float r3, float i3) = (Unsafe.Add(ref r, 3), Unsafe.Add(ref i, 3));
            (float r5, float i5) = (Unsafe.Add(ref r, 5), Unsafe.Add(ref i, 5));
            (float r7, float i7) = (Unsafe.Add(ref r, 7), Unsafe.Add(ref i, 7));
            Two(ref r, ref i, 0, Unsafe.Add(ref r, 1), Unsafe.Add(ref i, 1));
            Two(ref r, ref i, 2, Half * (r3 + i3), Half * (i3 - r3));
            Two(ref r, ref i, 4, i5, -r5);
            Two(ref r, ref i, 6, Half * (i7 - r7), -Half * (r7 + i7));
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Two(ref float re, ref float im, int at, float otherRe, float otherIm)
    {
        ref float r = ref Unsafe.Add(ref re, at);
        ref float i = ref Unsafe.Add(ref im, at);
        Unsafe.Add(ref r, 1) = r - otherRe;
        Unsafe.Add(ref i, 1) = i - otherIm;
        r += otherRe;
        i += otherIm;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Four(ref float re, ref float im, int step)
    {
        float ar = re, br = Unsafe.Add(ref re, step), cr = Unsafe.Add(ref re, 2 * step), dr = Unsafe.Add(ref re, 3 * step);
        float ai = im, bi = Unsafe.Add(ref im, step), ci = Unsafe.Add(ref im, 2 * step), di = Unsafe.Add(ref im, 3 * step);
        float sr = ar + cr, si = ai + ci, tr = ar - cr, ti = ai - ci;
        float ur = br + dr, ui = bi + di, vr = bi - di, vi = dr - br;
        re = sr + ur;
        im = si + ui;
        Unsafe.Add(ref re, step) = tr + vr;
        Unsafe.Add(ref im, step) = ti + vi;
        Unsafe.Add(ref re, 2 * step) = sr - ur;
        Unsafe.Add(ref im, 2 * step) = si - ui;
        Unsafe.Add(ref re, 3 * step) = tr - vr;
        Unsafe.Add(ref im, 3 * step) = ti - vi;
    }

    /// <summary>The butterflies over one span; a quarter of it is 4 or a multiple of 8.</summary>
    private sealed class Stage
    {
        private readonly float[] _turns;

        public Stage(int span)
        {
            Quarter = span / 4;
            _turns = new float[6 * Quarter];
            for (int k = 0; k < Quarter; k++)
            {
                for (int m = 1; m <= 3; m++)
                {
                    (double sin, double cos) = Math.SinCos(-Math.Tau * k * m / span);
                    _turns[(((2 * m) - 2) * Quarter) + k] = (float)cos;
                    _turns[(((2 * m) - 1) * Quarter) + k] = (float)sin;
                }
            }
        }

        public int Quarter { get; }

        [MethodImpl(MethodImplOptions.AggressiveOptimization)]
        public void Run(ref float re, ref float im)
        {
            ref float turns = ref MemoryMarshal.GetArrayDataReference(_turns);
            if (Quarter < Vector256<float>.Count)
            {
                Run128(ref re, ref im, ref turns);
                return;
            }

            int q = Quarter;
            for (int k = 0; k < q; k += Vector256<float>.Count)
            {
                ref float r = ref Unsafe.Add(ref re, k);
                ref float i = ref Unsafe.Add(ref im, k);
                ref float w = ref Unsafe.Add(ref turns, k);
                Vector256<float> ar = Load(ref r, 0), br = Load(ref r, q), cr = Load(ref r, 2 * q), dr = Load(ref r, 3 * q);
                Vector256<float> ai = Load(ref i, 0), bi = Load(ref i, q), ci = Load(ref i, 2 * q), di = Load(ref i, 3 * q);
                Vector256<float> sr = ar + cr, si = ai + ci, tr = ar - cr, ti = ai - ci;
                Vector256<float> ur = br + dr, ui = bi + di, vr = bi - di, vi = dr - br;
                (sr + ur).StoreUnsafe(ref r);
                (si + ui).StoreUnsafe(ref i);
                Turn(tr + vr, ti + vi, Load(ref w, 0), Load(ref w, q), ref r, ref i, q);
                Turn(sr - ur, si - ui, Load(ref w, 2 * q), Load(ref w, 3 * q), ref r, ref i, 2 * q);
                Turn(tr - vr, ti - vi, Load(ref w, 4 * q), Load(ref w, 5 * q), ref r, ref i, 3 * q);
            }
        }

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        private static Vector256<float> Load(ref float at, int offset) => Vector256.LoadUnsafe(ref Unsafe.Add(ref at, offset));

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        private static void Turn(Vector256<float> re, Vector256<float> im, Vector256<float> cos, Vector256<float> sin, ref float r, ref float i, int at)
        {
            ((re * cos) - (im * sin)).StoreUnsafe(ref Unsafe.Add(ref r, at));
            ((re * sin) + (im * cos)).StoreUnsafe(ref Unsafe.Add(ref i, at));
        }

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        private static void Run128(ref float re, ref float im, ref float w)
        {
            const int Q = 4;
            Vector128<float> ar = Load128(ref re, 0), br = Load128(ref re, Q), cr = Load128(ref re, 2 * Q), dr = Load128(ref re, 3 * Q);
            Vector128<float> ai = Load128(ref im, 0), bi = Load128(ref im, Q), ci = Load128(ref im, 2 * Q), di = Load128(ref im, 3 * Q);
            Vector128<float> sr = ar + cr, si = ai + ci, tr = ar - cr, ti = ai - ci;
            Vector128<float> ur = br + dr, ui = bi + di, vr = bi - di, vi = dr - br;
            (sr + ur).StoreUnsafe(ref re);
            (si + ui).StoreUnsafe(ref im);
            Turn128(tr + vr, ti + vi, Load128(ref w, 0), Load128(ref w, Q), ref re, ref im, Q);
            Turn128(sr - ur, si - ui, Load128(ref w, 2 * Q), Load128(ref w, 3 * Q), ref re, ref im, 2 * Q);
            Turn128(tr - vr, ti - vi, Load128(ref w, 4 * Q), Load128(ref w, 5 * Q), ref re, ref im, 3 * Q);
        }

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        private static Vector128<float> Load128(ref float at, int offset) => Vector128.LoadUnsafe(ref Unsafe.Add(ref at, offset));

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        private static void Turn128(Vector128<float> re, Vector128<float> im, Vector128<float> cos, Vector128<float> sin, ref float r, ref float i, int at)
        {
            ((re * cos) - (im * sin)).StoreUnsafe(ref Unsafe.Add(ref r, at));
            ((re * sin) + (im * cos)).StoreUnsafe(ref Unsafe.Add(ref i, at));
        }
    }
}
