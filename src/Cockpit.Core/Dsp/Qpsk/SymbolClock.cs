namespace Cockpit.Core.Dsp.Qpsk;

/// <summary>Keeps the sampling in the middle of the symbols: a search for the clock, then a loop of second order.</summary>
/// <remarks>
/// The phasor comes from values at twice the symbol rate: the power in time with the symbols less that half-way, and the product of
/// neighbours (S. J. Lee, IEEE Commun. Lett. 6 (2002), 205, from memory). It needs no carrier and no decision.
/// </remarks>
internal sealed class SymbolClock
{
    /// <summary>Symbols between two corrections.</summary>
    public const int Stretch = 1024;

    // Noise bandwidth about 1.6 % of the rate of corrections (0.4 ms): good for -8 dB, follows any motion.
    private const double Proportional = 0.05;
    private const double Integral = Proportional * Proportional / 4.0;
    private const float Memory = 1.0f - (1.0f / 32.0f);

    // In noise the ratio is exponential with mean 1.
    private const double Present = 6.0;

    private readonly ClockSearch _search = new(Stretch);
    private float _meanRe;
    private float _meanIm;
    private float _meanSquare;

    /// <summary>Whether the sampling follows a clock.</summary>
    public bool Locked { get; private set; }

    /// <summary>How much faster than nominal the symbols come, relative.</summary>
    public double Rate { get; private set; }

    /// <summary>Forgets everything.</summary>
    public void Reset()
    {
        Locked = false;
        Rate = 0.0;
        _search.Clear();
    }

    /// <summary>Takes the values of one stretch and tells how to go on.</summary>
    /// <param name="i">2048 values, two for each symbol, the first in its middle.</param>
    /// <param name="q">The same, quadrature.</param>
    /// <returns>By how many symbols the next stretch must start earlier.</returns>
    public double Take(ReadOnlySpan<float> i, ReadOnlySpan<float> q)
    {
        (float re, float im) = Phasor(i, q);
        return Locked ? Follow(re, im) : Search(re, im);
    }

    private static (float Re, float Im) Phasor(ReadOnlySpan<float> i, ReadOnlySpan<float> q)
    {
        float powerOn = 1e-30f;
        float powerBetween = 0.0f;
        float slope = 0.0f;
        for (int k = 0; k + 2 < i.Length && k + 2 < q.Length; k += 2)
        {
            powerOn += (i[k] * i[k]) + (q[k] * q[k]);
            powerBetween += (i[k + 1] * i[k + 1]) + (q[k + 1] * q[k + 1]);
            slope += (i[k + 1] * (i[k + 2] - i[k])) + (q[k + 1] * (q[k + 2] - q[k]));
        }

        float all = powerOn + powerBetween;
        return ((powerOn - powerBetween) / all, slope / all);
    }

    private double Search(float re, float im)
    {
        if (!_search.Take(re, im))
        {
            return 0.0;
        }

        Rate += _search.Rate;
        Locked = true;
        _meanSquare = (re * re) + (im * im);
        (_meanRe, _meanIm) = (MathF.Sqrt(_meanSquare), 0.0f);

        // The lateness was that of the middle of the last stretch; the next begins half a stretch later.
        return _search.Late + (_search.Rate * Stretch / 2.0);
    }

    private double Follow(float re, float im)
    {
        _meanRe = (Memory * _meanRe) + ((1.0f - Memory) * re);
        _meanIm = (Memory * _meanIm) + ((1.0f - Memory) * im);
        _meanSquare = (Memory * _meanSquare) + ((1.0f - Memory) * ((re * re) + (im * im)));
        double power = (_meanRe * _meanRe) + (_meanIm * _meanIm);
        if (power * (1.0f + Memory) / (1.0f - Memory) < Present * _meanSquare)
        {
            Locked = false;
            _search.Clear();
            return 0.0;
        }

        double late = Math.Clamp(im / (Math.Tau * Math.Sqrt(power)), -0.25, 0.25);
        Rate += Integral * late / Stretch;
        return Proportional * late;
    }
}
