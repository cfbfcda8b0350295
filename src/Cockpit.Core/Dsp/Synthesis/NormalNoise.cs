using Cockpit.Core.Chance;
using MathNet.Numerics.Distributions;

namespace Cockpit.Core.Dsp.Synthesis;

/// <summary>Gaussian noise from a table: four values of each 64 random bits.</summary>
/// <param name="chance">Where the bits come from.</param>
internal sealed class NormalNoise(Xoshiro256 chance)
{
    private static readonly float[] Table = [.. Enumerable.Range(0, 1 << 16).Select(k => (float)Normal.InvCDF(0, 1, (k + 0.5) / (1 << 16)))];

    private ulong _bits;
    private int _left;

    /// <summary>The next value of the standard normal distribution.</summary>
    public float Next()
    {
        if (_left == 0)
        {
            _bits = chance.NextBits();
            _left = 4;
        }

        float value = Table[_bits & 0xFFFF];
        _bits >>= 16;
        _left--;
        return value;
    }
}
