using Cockpit.Core.Chance;

namespace Cockpit.Core.Dsp.Synthesis;

/// <summary>An unwanted signal: a tone, or noise through a steep low-pass about its middle.</summary>
internal sealed class InterfererSource
{
    private readonly NormalNoise _noise;
    private readonly bool _tone;
    private readonly double _amplitude;
    private readonly SteepLowPass _re;
    private readonly SteepLowPass _im;
    private Phasor _middle;

    public InterfererSource(Interferer interferer, double sampleRate, Xoshiro256 chance)
    {
        _noise = new NormalNoise(chance);
        _middle = new Phasor(interferer.Hz / sampleRate);
        _tone = interferer.WidthHz <= 0;
        double cutoff = Math.Max(interferer.WidthHz, 1) / 2 / sampleRate;
        _re = new SteepLowPass(cutoff);
        _im = new SteepLowPass(cutoff);
        _amplitude = Math.Sqrt(PowerOf(interferer, sampleRate) / (_tone ? 1 : 2 * _re.NoiseGain()));
    }

    /// <summary>Its power, where the noise of the whole band has power 1.</summary>
    public static double PowerOf(Interferer interferer, double sampleRate) => Math.Pow(10, interferer.Db / 10) * SpectrumTemplate.SplitPhaseRate / sampleRate;

    /// <summary>Adds its next sample.</summary>
    public void Add(ref float re, ref float im)
    {
        (double a, double b) = _tone ? (_amplitude, 0) : (_amplitude * _re.Next(_noise.Next()), _amplitude * _im.Next(_noise.Next()));
        re += (float)((a * _middle.Re) - (b * _middle.Im));
        im += (float)((a * _middle.Im) + (b * _middle.Re));
        _middle.Turn();
    }
}

/// <summary>Butterworth low-pass of the eighth order: four sections of the second.</summary>
/// <remarks>Bilinear transform with the cut-off kept; A. V. Oppenheim, R. W. Schafer, Discrete-Time Signal Processing, 3rd ed., section 7.1.</remarks>
internal sealed class SteepLowPass
{
    private const int Sections = 4;

    private readonly double[] _b = new double[Sections];
    private readonly double[] _a1 = new double[Sections];
    private readonly double[] _a2 = new double[Sections];
    private readonly double[] _s1 = new double[Sections];
    private readonly double[] _s2 = new double[Sections];
    private readonly double _cutoff;

    /// <param name="cutoff">Half the power remains here; cycles a sample, below 0.5.</param>
    public SteepLowPass(double cutoff)
    {
        _cutoff = cutoff;
        double k = Math.Tan(Math.PI * cutoff);
        for (int n = 0; n < Sections; n++)
        {
            double damping = 2 * Math.Sin(Math.PI * ((2 * n) + 1) / (4 * Sections));
            double norm = 1 / (1 + (damping * k) + (k * k));
            _b[n] = k * k * norm;
            _a1[n] = 2 * ((k * k) - 1) * norm;
            _a2[n] = (1 - (damping * k) + (k * k)) * norm;
        }
    }

    /// <summary>Power of white noise of power 1 behind it.</summary>
    public double NoiseGain()
    {
        SteepLowPass fresh = new(_cutoff);
        double energy = 0;
        for (int k = 0; k < 200 / _cutoff; k++)
        {
            double response = fresh.Next(k == 0 ? 1 : 0);
            energy += response * response;
        }

        return energy;
    }

    /// <summary>The next sample.</summary>
    public double Next(double sample)
    {
        for (int n = 0; n < Sections; n++)
        {
            double x = sample * _b[n];
            double y = x + _s1[n];
            _s1[n] = (2 * x) - (_a1[n] * y) + _s2[n];
            _s2[n] = x - (_a2[n] * y);
            sample = y;
        }

        return sample;
    }
}
