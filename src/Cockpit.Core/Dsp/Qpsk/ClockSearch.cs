namespace Cockpit.Core.Dsp.Qpsk;

/// <summary>Finds phase and rate of the symbol clock in the timing phasors of many stretches.</summary>
/// <remarks>
/// A phasor turns by rate error x length from stretch to stretch; the search is a periodogram over the rates that clocks and motion allow.
/// Source: M. Oerder, H. Meyr, IEEE Trans. Commun. 36 (1988), 605, for the phasor; the rest is a plain maximum likelihood estimate.
/// </remarks>
internal sealed class ClockSearch
{
    // Motion 22 ppm, transmitter and receiver clocks 20 ppm each, some room.
    private const double LargestRate = 80e-6;
    private const int Most = 128;
    private const int Fewest = 16;

    // In noise the ratio is exponential with mean 1: e^-14 for each of 50 rates.
    private const double Threshold = 14.0;

    private readonly float[] _re = new float[Most];
    private readonly float[] _im = new float[Most];
    private readonly int _symbols;
    private int _count;
    private int _at;

    /// <summary>A search without phasors.</summary>
    /// <param name="symbolsPerStretch">Symbols between two phasors.</param>
    public ClockSearch(int symbolsPerStretch) => _symbols = symbolsPerStretch;

    /// <summary>Rate that was found: symbols come so much faster than assumed, relative.</summary>
    public double Rate { get; private set; }

    /// <summary>How late the last stretch was sampled in its middle, symbols, -0.5 to 0.5.</summary>
    public double Late { get; private set; }

    /// <summary>Forgets all phasors: the sampling was moved.</summary>
    public void Clear() => (_count, _at) = (0, 0);

    /// <summary>Takes the phasor of the next stretch.</summary>
    /// <param name="re">Real part; its angle in turns is the lateness in symbols.</param>
    /// <param name="im">Imaginary part.</param>
    /// <returns>True when a clock was found: <see cref="Rate"/> and <see cref="Late"/> tell it.</returns>
    public bool Take(float re, float im)
    {
        (_re[_at], _im[_at]) = (re, im);
        _at = (_at + 1) % Most;
        _count++;
        bool due = _count is Fewest or (2 * Fewest) or (4 * Fewest) || (_count >= Most && _count % (Most / 4) == 0);
        return due && Search(Math.Min(_count, Most));
    }

    private bool Search(int length)
    {
        double energy = 0.0;
        for (int k = 1; k <= length; k++)
        {
            (float re, float im) = Back(k);
            energy += (re * re) + (im * im);
        }

        double spacing = 0.5 / ((double)length * _symbols);
        int steps = (int)Math.Ceiling(LargestRate / spacing);
        double best = 0.0;
        double rate = 0.0;
        for (int k = -steps; k <= steps; k++)
        {
            double power = Power(k * spacing, length, out _, out _);
            (best, rate) = power > best ? (power, k * spacing) : (best, rate);
        }

        if (energy <= 0.0 || best < Threshold * energy)
        {
            return false;
        }

        rate += Parabola(Power(rate - spacing, length, out _, out _), best, Power(rate + spacing, length, out _, out _)) * spacing;
        Power(rate, length, out double sumRe, out double sumIm);
        Rate = rate;
        Late = Math.Atan2(sumIm, sumRe) / Math.Tau;
        return true;
    }

    // Sampling too late by more and more means that the symbols come faster.
    private double Power(double rate, int length, out double sumRe, out double sumIm)
    {
        (sumRe, sumIm) = (0.0, 0.0);
        for (int k = 1; k <= length; k++)
        {
            (float re, float im) = Back(k);
            (double sin, double cos) = Math.SinCos(Math.Tau * rate * _symbols * (k - 1));
            sumRe += (re * cos) - (im * sin);
            sumIm += (re * sin) + (im * cos);
        }

        return (sumRe * sumRe) + (sumIm * sumIm);
    }

    private (float Re, float Im) Back(int steps)
    {
        int at = (_at - steps + (2 * Most)) % Most;
        return (_re[at], _im[at]);
    }

    private static double Parabola(double before, double peak, double after)
    {
        double curve = before - (2.0 * peak) + after;
        return curve < 0.0 ? Math.Clamp(0.5 * (before - after) / curve, -0.5, 0.5) : 0.0;
    }
}
