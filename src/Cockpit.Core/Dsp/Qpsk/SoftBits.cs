using Cockpit.Core.Dsp.Coding;

namespace Cockpit.Core.Dsp.Qpsk;

/// <summary>Symbols to the soft pairs of a Viterbi decoder: turned to the axes, un-mirrored, un-punctured.</summary>
internal sealed class SoftBits
{
    // 12 of 31 for a mean component leaves room for its noise (common practice, no source).
    private const float Level = 12.0f;

    private readonly sbyte[] _pairs = new sbyte[2 * ViterbiDecoder.BlockBits];
    private readonly ViterbiDecoder _decoder = new();
    private readonly byte[] _bits = new byte[ViterbiDecoder.BlockBits];
    private MarkerVariant _variant;
    private int _filled;
    private bool _odd;

    /// <summary>Starts at a symbol that starts a cycle.</summary>
    /// <param name="variant">What is sent.</param>
    public void Start(MarkerVariant variant)
    {
        _variant = variant;
        _decoder.Reset();
        _filled = 0;
        _odd = false;
    }

    /// <summary>Takes symbols of one phase.</summary>
    /// <param name="i">In-phase.</param>
    /// <param name="q">Quadrature.</param>
    /// <param name="phase">The carrier's phase, all of it, radians, as the symbols arrive.</param>
    /// <param name="power">Mean power of the symbols.</param>
    /// <param name="frames">Takes the decided bits.</param>
    public void Take(ReadOnlySpan<float> i, ReadOnlySpan<float> q, double phase, float power, FrameBits frames)
    {
        float scale = Level / MathF.Sqrt(0.5f * Math.Max(power, 1e-20f));
        (double sin, double cos) = Math.SinCos(-phase);
        (float re, float im) = ((float)cos * scale, (float)sin * scale);
        float mirror = _variant.Mirrored ? -1.0f : 1.0f;
        bool inverted = _variant.Sent.InvertSecond;
        for (int k = 0; k < i.Length && k < q.Length; k++)
        {
            float y = mirror * q[k];
            sbyte u = Clamp((i[k] * re) - (y * im));
            sbyte v = Clamp((i[k] * im) + (y * re));
            if (_variant.Sent.Rate == CodeRate.Half)
            {
                Push(u, Second(v, inverted), frames);
            }
            else if (!_odd)
            {
                Push(u, Second(v, inverted), frames);
                _odd = true;
            }
            else
            {
                Push(0, Second(u, inverted), frames);
                Push(v, 0, frames);
                _odd = false;
            }
        }
    }

    private static sbyte Second(sbyte value, bool inverted) => inverted ? (sbyte)-value : value;

    private static sbyte Clamp(float value) =>
        (sbyte)MathF.Round(Math.Clamp(value, -ViterbiDecoder.LargestSoft, ViterbiDecoder.LargestSoft));

    private void Push(sbyte first, sbyte second, FrameBits frames)
    {
        (_pairs[_filled], _pairs[_filled + 1]) = (first, second);
        _filled += 2;
        if (_filled == _pairs.Length)
        {
            _filled = 0;
            _decoder.Decode(_pairs, _bits);
            frames.Take(_bits);
        }
    }
}
