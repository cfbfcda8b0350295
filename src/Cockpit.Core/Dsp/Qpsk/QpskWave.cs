namespace Cockpit.Core.Dsp.Qpsk;

/// <summary>Symbols as a wave of unit power: root raised cosine pulses, added at whatever instants are asked for.</summary>
/// <remarks>256 places in a symbol, pulses cut 10 symbols from their centre.</remarks>
public sealed class QpskWave
{
    private const int Phases = 256;
    private const int Reach = 10;
    private const int Taps = 2 * Reach;
    private static readonly float[] Pulse = MakePulse();

    private readonly QpskSymbolSource _source;
    private readonly float[] _i = new float[2 * Taps];
    private readonly float[] _q = new float[2 * Taps];
    private int _at;
    private long _newest = -1;

    /// <summary>A wave.</summary>
    /// <param name="source">Where the symbols come from.</param>
    public QpskWave(QpskSymbolSource source) => _source = source;

    /// <summary>The wave at an instant.</summary>
    /// <param name="symbols">The instant in symbols since the start, 0 or more, never less than the last one; a symbol's interval starts at its number.</param>
    public (float I, float Q) At(double symbols)
    {
        // Centres lie half a symbol after the start of an interval.
        double centred = symbols - 0.5;
        long whole = (long)Math.Floor(centred);
        while (_newest < whole + Reach)
        {
            Push();
        }

        int phase = (int)(((centred - whole) * Phases) + 0.5);
        ReadOnlySpan<float> pulse = Pulse.AsSpan(phase * Taps, Taps);
        ReadOnlySpan<float> i = _i.AsSpan(_at, Taps);
        ReadOnlySpan<float> q = _q.AsSpan(_at, Taps);
        (float sumI, float sumQ) = (0.0f, 0.0f);
        for (int k = 0; k < pulse.Length && k < i.Length && k < q.Length; k++)
        {
            sumI += pulse[k] * i[k];
            sumQ += pulse[k] * q[k];
        }

        return (sumI, sumQ);
    }

    // The ring is kept twice, so that any run of it lies in one piece.
    private void Push()
    {
        (float i, float q) = _source.Next();
        (_i[_at], _q[_at]) = (i, q);
        (_i[_at + Taps], _q[_at + Taps]) = (i, q);
        _at = (_at + 1) % Taps;
        _newest++;
    }

    private static float[] MakePulse()
    {
        float[] pulse = new float[(Phases + 1) * Taps];
        for (int phase = 0; phase <= Phases; phase++)
        {
            for (int k = 0; k < Taps; k++)
            {
                // The oldest symbol first; the newest lies Reach after the instant.
                pulse[(phase * Taps) + k] = (float)PulseShape.At(((double)phase / Phases) - (k - Reach + 1));
            }
        }

        return pulse;
    }
}
