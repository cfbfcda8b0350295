using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Cockpit.Core.Dsp.SplitPhase;

/// <summary>Takes the bits of a bit receiver, one at a time.</summary>
internal interface IBitSink
{
    /// <summary>Whether the frame is known, so that the bit edges cannot be half a bit off.</summary>
    bool Framed { get; }

    /// <summary>A bit was decided.</summary>
    /// <param name="bit">1 or 0; all of them may be the other way round.</param>
    /// <param name="startSample">Where it begins.</param>
    /// <param name="bitSamples">Its length by the timing loop.</param>
    /// <param name="along">The decision value's energy along the carrier's phase.</param>
    /// <param name="across">The energy across it: noise alone.</param>
    void Bit(int bit, double startSample, double bitSamples, float along, float across);
}

/// <summary>Split-phase samples to bits: oscillator, matched filter, timing loop, carrier loop.</summary>
/// <remarks>
/// The matched filter is three values of a running sum: first half of the bit minus the second, at any fractional place, in constant time.
/// Timing by the difference of the filter an eighth of a bit early and late; carrier by a Costas loop on the filter's output.
/// Sources: F. M. Gardner, Phaselock Techniques, 3rd ed., chapter 13 (Costas); W. C. Lindsey, M. K. Simon, Telecommunication Systems
/// Engineering, chapter 9 (early-late gate). Loop gains by trial.
/// </remarks>
internal sealed class BitReceiver
{
    private const int Chunk = 4096;
    private const int Carry = 256;
    private const int Settled = 512;
    private const double TimingGain = 0.004;
    private const double TimingDrift = 4e-6;
    private const double PhaseGain = 0.03;
    private const double PhaseDrift = 2e-4;
    private const double MostPpm = 150e-6;
    private const float Forget = 1f / 256;
    private const float LeastQuality = 0.1f;

    private readonly double _sampleRate;
    private readonly double _nominal;
    private readonly float[] _re = new float[Carry + Chunk];
    private readonly float[] _im = new float[Carry + Chunk];
    private readonly float[] _sumRe = new float[Carry + Chunk + 1];
    private readonly float[] _sumIm = new float[Carry + Chunk + 1];
    private double _oscillatorHz;
    private double _oscillatorTurns;
    private double _at;
    private double _bitSamples;
    private double _cos = 1;
    private double _sin;
    private double _radiansPerBit;
    private float _along;
    private float _across;
    private float _atEnergy;
    private float _halfEnergy;
    private int _settling;
    private int _previous;
    private bool _started;

    public BitReceiver(double sampleRate)
    {
        _sampleRate = sampleRate;
        _nominal = sampleRate / SpectrumTemplate.SplitPhaseRate;
        _bitSamples = _nominal;
    }

    /// <summary>Samples of a bit by the timing loop.</summary>
    public double BitSamples => _bitSamples;

    /// <summary>The carrier by its loop.</summary>
    public double CarrierHz => _oscillatorHz + CarrierLoopHz;

    private double CarrierLoopHz => _radiansPerBit * _sampleRate / (Math.Tau * _bitSamples);

    /// <summary>Sets the carrier; the loops go on from there.</summary>
    public void Tune(double hz)
    {
        _oscillatorHz = hz;
        _radiansPerBit = 0;
    }

    /// <summary>Moves what the carrier loop has found into the oscillator, so that the loop never has far to go.</summary>
    public void Retune()
    {
        _oscillatorHz += CarrierLoopHz;
        _radiansPerBit = 0;
    }

    /// <summary>Sets the bit clock: after a gap it is known better from the last good frame.</summary>
    /// <param name="samplesToBit">Samples from the start of the next block to the next edge of a bit.</param>
    /// <param name="bitSamples">Samples of a bit.</param>
    public void SetClock(double samplesToBit, double bitSamples)
    {
        _bitSamples = bitSamples;
        _at = Carry + samplesToBit + 0.5;
        _started = true;
        _settling = 0;
        Array.Clear(_re);
        Array.Clear(_im);
    }

    /// <summary>Forgets everything.</summary>
    public void Reset()
    {
        _started = false;
        _bitSamples = _nominal;
        _radiansPerBit = 0;
        _along = _across = 0;
        Array.Clear(_re);
        Array.Clear(_im);
    }

    /// <summary>Takes a block that follows the last one.</summary>
    public void Take(in ComplexBlock block, IBitSink sink)
    {
        if (!_started)
        {
            _started = true;
            _at = Carry + 0.5;
            _settling = 0;
        }

        for (int start = 0; start < block.Length; start += Chunk)
        {
            int length = Math.Min(Chunk, block.Length - start);
            Array.Copy(_re, _previous, _re, 0, Carry);
            Array.Copy(_im, _previous, _im, 0, Carry);
            MixDown(block.I.Slice(start, length), block.Q.Slice(start, length));
            RunningSum(_re.AsSpan(0, Carry + length), _sumRe);
            RunningSum(_im.AsSpan(0, Carry + length), _sumIm);
            Decide(block.FirstSample + start, length, sink);
            _at -= length;
            _previous = length;
        }
    }

    private static void RunningSum(ReadOnlySpan<float> samples, float[] sums)
    {
        float sum = 0;
        for (int k = 0; k < samples.Length; k++)
        {
            sum += samples[k];
            sums[k + 1] = sum;
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void MixDown(ReadOnlySpan<float> i, ReadOnlySpan<float> q)
    {
        int lanes = Vector256<float>.Count;
        double turn = _oscillatorHz / _sampleRate;
        Span<float> cosines = stackalloc float[lanes], sines = stackalloc float[lanes];
        for (int k = 0; k < lanes; k++)
        {
            (double sin, double cos) = Math.SinCos(-Math.Tau * (_oscillatorTurns + (turn * k)));
            cosines[k] = (float)cos;
            sines[k] = (float)sin;
        }

        (double stepSin, double stepCos) = Math.SinCos(-Math.Tau * turn * lanes);
        Vector256<float> c = Vector256.Create<float>(cosines), s = Vector256.Create<float>(sines);
        Vector256<float> dc = Vector256.Create((float)stepCos), ds = Vector256.Create((float)stepSin);
        ref float fromI = ref MemoryMarshal.GetReference(i), fromQ = ref MemoryMarshal.GetReference(q);
        ref float toRe = ref _re[Carry], toIm = ref _im[Carry];
        int n = 0;
        for (; n + lanes <= i.Length; n += lanes)
        {
            Vector256<float> a = Vector256.LoadUnsafe(ref fromI, (nuint)n), b = Vector256.LoadUnsafe(ref fromQ, (nuint)n);
            ((a * c) - (b * s)).StoreUnsafe(ref toRe, (nuint)n);
            ((a * s) + (b * c)).StoreUnsafe(ref toIm, (nuint)n);
            (c, s) = ((c * dc) - (s * ds), (c * ds) + (s * dc));
        }

        for (int lane = 0; n < i.Length; n++, lane++)
        {
            _re[Carry + n] = (i[n] * c[lane]) - (q[n] * s[lane]);
            _im[Carry + n] = (i[n] * s[lane]) + (q[n] * c[lane]);
        }

        _oscillatorTurns += turn * i.Length;
        _oscillatorTurns -= Math.Floor(_oscillatorTurns);
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void Decide(long firstSample, int length, IBitSink sink)
    {
        ref float re = ref MemoryMarshal.GetArrayDataReference(_sumRe);
        ref float im = ref MemoryMarshal.GetArrayDataReference(_sumIm);
        double end = Carry + length - 1;
        while (_at + (1.625 * _bitSamples) < end)
        {
            double half = 0.5 * _bitSamples, eighth = 0.125 * _bitSamples, at = _at;
            float r = Filter(ref re, at, half), i = Filter(ref im, at, half);
            float cos = (float)_cos, sin = (float)_sin;
            float real = (r * cos) + (i * sin), imaginary = (i * cos) - (r * sin);
            float early = MathF.Abs((Filter(ref re, at - eighth, half) * cos) + (Filter(ref im, at - eighth, half) * sin));
            float late = MathF.Abs((Filter(ref re, at + eighth, half) * cos) + (Filter(ref im, at + eighth, half) * sin));
            float along = real * real, across = imaginary * imaginary;
            _along += Forget * (along - _along);
            _across += Forget * (across - _across);
            bool framed = sink.Framed;
            if (!framed)
            {
                WatchHalfBit(ref re, ref im, at + half, half, along + across);
            }

            sink.Bit(real > 0 ? 1 : 0, firstSample + at - Carry - 0.5, _bitSamples, along, across);
            Steer(real, imaginary, late - early, framed);
        }
    }

    private void Steer(float real, float imaginary, float lateMinusEarly, bool framed)
    {
        double size = Math.Sqrt(_along + _across + 1e-30f);
        double timing = Math.Clamp(lateMinusEarly / size, -2, 2);
        double phase = Math.Clamp((real > 0 ? imaginary : -imaginary) / size, -2, 2);

        // In noise the loops would walk away from what a known frame has taught them.
        if (!framed || _along - _across > LeastQuality * (_along + _across))
        {
            _bitSamples = Math.Clamp(_bitSamples + (TimingDrift * timing), _nominal * (1 - MostPpm), _nominal * (1 + MostPpm));
            _radiansPerBit += PhaseDrift * phase;
        }

        _at += _bitSamples + (TimingGain * _nominal * timing);
        Turn(_radiansPerBit + (PhaseGain * phase));
    }

    // Small angle: third-order terms are below 1e-5, and the length is kept at one.
    private void Turn(double radians)
    {
        double square = 0.5 * radians * radians;
        double cos = _cos - (_sin * radians) - (_cos * square);
        double sin = _sin + (_cos * radians) - (_sin * square);
        double keep = 1.5 - (0.5 * ((cos * cos) + (sin * sin)));
        (_cos, _sin) = (cos * keep, sin * keep);
    }

    // Half a bit off, the filter sees nothing wherever two neighbours differ: less energy.
    private void WatchHalfBit(ref float re, ref float im, double at, double half, float energy)
    {
        const float Better = 1.05f;
        float r = Filter(ref re, at, half), i = Filter(ref im, at, half);
        _atEnergy += energy;
        _halfEnergy += (r * r) + (i * i);
        if (++_settling < Settled)
        {
            return;
        }

        if (_halfEnergy > Better * _atEnergy)
        {
            _at += half;
        }

        _settling = 0;
        _atEnergy = _halfEnergy = 0;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static float Filter(ref float sums, double at, double half) =>
        (2 * Sum(ref sums, at + half)) - Sum(ref sums, at) - Sum(ref sums, at + (2 * half));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static float Sum(ref float sums, double at)
    {
        int whole = (int)at;
        ref float here = ref Unsafe.Add(ref sums, whole);
        return here + ((float)(at - whole) * (Unsafe.Add(ref here, 1) - here));
    }
}
