using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Cockpit.Core.Dsp;

/// <summary>Power spectrum of one block: Hann windows that overlap by half, averaged.</summary>
/// <remarks>
/// Normalised so that white noise of power P (mean of I^2 + Q^2) gives P in every bin, whatever its bandwidth.
/// Source: P. D. Welch, IEEE Transactions on Audio and Electroacoustics 15 (1967), 70.
/// </remarks>
public sealed class WindowSpectrum
{
    private readonly Fft _fft;
    private readonly float[] _window;
    private readonly float[] _re;
    private readonly float[] _im;
    private readonly float[] _sums;
    private readonly float[] _power;

    /// <summary>Prepares the tables.</summary>
    /// <param name="size">Bins; a power of two.</param>
    public WindowSpectrum(int size)
    {
        _fft = new Fft(size);
        _window = new float[size];
        _re = new float[size];
        _im = new float[size];
        _sums = new float[size];
        _power = new float[size];
        double scale = Math.Sqrt(8.0 / (3.0 * size));
        for (int k = 0; k < size; k++)
        {
            _window[k] = (float)(scale * 0.5 * (1 - Math.Cos(Math.Tau * k / size)));
        }
    }

    /// <summary>Bins.</summary>
    public int Size => _fft.Size;

    /// <summary>The spectrum of the last block, from minus half the sample rate upwards; the bin at the centre is number size / 2.</summary>
    public ReadOnlySpan<float> Power => _power;

    /// <summary>Windows that were averaged.</summary>
    public int Segments { get; private set; }

    /// <summary>Measures a block; one that is shorter than a window gives zeros.</summary>
    /// <param name="block">The samples.</param>
    /// <param name="dcI">Taken off every in-phase component: removes DC exactly.</param>
    /// <param name="dcQ">Taken off every quadrature component.</param>
    public void Measure(in ComplexBlock block, float dcI = 0, float dcQ = 0)
    {
        Array.Clear(_sums);
        Segments = 0;
        for (int start = 0; start + Size <= block.Length; start += Size / 2)
        {
            Weigh(block.I.Slice(start, Size), dcI, _re);
            Weigh(block.Q.Slice(start, Size), dcQ, _im);
            _fft.Forward(_re, _im);
            AddPower();
            Segments++;
        }

        float scale = 1f / Math.Max(1, Segments);
        ReadOnlySpan<int> order = _fft.Order;
        int half = Size / 2;
        for (int k = 0; k < Size; k++)
        {
            _power[k] = _sums[order[(k + half) & (Size - 1)]] * scale;
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void Weigh(ReadOnlySpan<float> samples, float dc, float[] to)
    {
        ref float from = ref MemoryMarshal.GetReference(samples);
        ref float window = ref MemoryMarshal.GetArrayDataReference(_window);
        ref float result = ref MemoryMarshal.GetArrayDataReference(to);
        Vector256<float> off = Vector256.Create(dc);
        for (nuint k = 0; k < (nuint)to.Length; k += (nuint)Vector256<float>.Count)
        {
            ((Vector256.LoadUnsafe(ref from, k) - off) * Vector256.LoadUnsafe(ref window, k)).StoreUnsafe(ref result, k);
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void AddPower()
    {
        ref float re = ref MemoryMarshal.GetArrayDataReference(_re);
        ref float im = ref MemoryMarshal.GetArrayDataReference(_im);
        ref float sums = ref MemoryMarshal.GetArrayDataReference(_sums);
        for (nuint k = 0; k < (nuint)_sums.Length; k += (nuint)Vector256<float>.Count)
        {
            Vector256<float> r = Vector256.LoadUnsafe(ref re, k), i = Vector256.LoadUnsafe(ref im, k);
            (Vector256.LoadUnsafe(ref sums, k) + (r * r) + (i * i)).StoreUnsafe(ref sums, k);
        }
    }
}
