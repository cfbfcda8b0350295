using System.Numerics;

namespace Cockpit.Core.Chance;

/// <summary>The one source of chance in the project: xoshiro256**, seeded by SplitMix64, so that runs repeat everywhere.</summary>
/// <remarks>Source: D. Blackman, S. Vigna, Scrambled Linear Pseudorandom Number Generators, ACM TOMS 47 (2021), 36.</remarks>
public sealed class Xoshiro256
{
    private ulong _s0;
    private ulong _s1;
    private ulong _s2;
    private ulong _s3;
    private double? _spareNormal;

    /// <summary>Starts the sequence that belongs to a seed and a stream number; streams are independent.</summary>
    public Xoshiro256(ulong seed, ulong stream = 0)
    {
        ulong mix = seed + (1000 * stream);
        _s0 = SplitMix64(ref mix);
        _s1 = SplitMix64(ref mix);
        _s2 = SplitMix64(ref mix);
        _s3 = SplitMix64(ref mix);
    }

    /// <summary>The next 64 bits.</summary>
    public ulong NextBits()
    {
        ulong result = BitOperations.RotateLeft(_s1 * 5, 7) * 9;
        ulong shifted = _s1 << 17;
        _s2 ^= _s0;
        _s3 ^= _s1;
        _s1 ^= _s2;
        _s0 ^= _s3;
        _s2 ^= shifted;
        _s3 = BitOperations.RotateLeft(_s3, 45);
        return result;
    }

    /// <summary>A number evenly spread over [0, 1), 53 bits.</summary>
    public double NextUnit() => (NextBits() >> 11) * (1.0 / (1UL << 53));

    /// <summary>A whole number in [0, count).</summary>
    public int NextBelow(int count) => (int)(NextUnit() * count);

    /// <summary>A number from the standard normal distribution (Box-Muller, both values used in order).</summary>
    public double NextNormal()
    {
        if (_spareNormal is { } spare)
        {
            _spareNormal = null;
            return spare;
        }

        double radius = Math.Sqrt(-2.0 * Math.Log(1.0 - NextUnit()));
        (double sin, double cos) = Math.SinCos(Math.Tau * NextUnit());
        _spareNormal = radius * sin;
        return radius * cos;
    }

    private static ulong SplitMix64(ref ulong state)
    {
        state += 0x9E3779B97F4A7C15UL;
        ulong z = state;
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9UL;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EBUL;
        return z ^ (z >> 31);
    }
}
