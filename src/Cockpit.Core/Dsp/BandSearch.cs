namespace Cockpit.Core.Dsp;

/// <summary>Looks for a template anywhere within the range that Doppler and clock allow, by the spectrum alone.</summary>
/// <remarks>A grid of 8 kHz, then three-point steps that shrink; the misfit of each bin is capped, so that interferers do not lead.</remarks>
public sealed class BandSearch
{
    /// <summary>Farthest offset that is looked for: 37 kHz of Doppler, 34 kHz of a clock 20 ppm wrong, and some room.</summary>
    public const double RangeHz = 96_000;

    private const double GridHz = 8_000;
    private const double Shrink = 0.4;
    private const int Steps = 5;
    private const int Drops = 4;
    private const double Disturbed = 1.3;

    private readonly SpectrumTemplate _template;
    private readonly float[] _density;
    private readonly bool[] _use;

    /// <summary>Prepares for spectra of one size.</summary>
    public BandSearch(SpectrumTemplate template, CoarseSpectrum spectrum)
    {
        _template = template;
        _density = new float[spectrum.Size];
        _use = new bool[spectrum.Size];
    }

    /// <summary>The template that is looked for.</summary>
    public SpectrumTemplate Template => _template;

    /// <summary>Whether the band is wide enough to see this signal and the floor beside it.</summary>
    public bool Fits(CoarseSpectrum spectrum) => spectrum.SampleRate >= 1.25 * _template.SymbolRate;

    /// <summary>Searches.</summary>
    /// <param name="spectrum">The spectrum.</param>
    /// <param name="nearHz">Where the signal was just before: only 12 kHz about it are searched; null = everywhere.</param>
    /// <returns>The offset that fits best, and the fit there.</returns>
    public (double OffsetHz, FitResult Fit) Search(CoarseSpectrum spectrum, double? nearHz)
    {
        (double hz, FitResult fit) = Search(spectrum, nearHz, steadfast: false);
        if (fit.Misfit > Disturbed && fit.Significance > 0)
        {
            // Something else is in the band, and it may have pulled.
            (hz, _) = Search(spectrum, nearHz, steadfast: true);
        }

        return (hz, Steadfast(spectrum, hz));
    }

    /// <summary>The fit at one offset, without what stands out; its misfit counts that too.</summary>
    public FitResult Steadfast(CoarseSpectrum spectrum, double hz)
    {
        FitResult fit = At(spectrum, hz);
        for (int k = 0; k < Drops && TemplateFit.DropAbove(spectrum.Power, _density, _use, spectrum.Looks, fit); k++)
        {
            fit = TemplateFit.Fit(spectrum.Power, _density, _use, spectrum.Looks, spectrum.LowerFifth);
        }

        return fit with { Misfit = TemplateFit.Misfit(spectrum.Power, _density, spectrum.Clean, spectrum.Looks, fit) };
    }

    private (double OffsetHz, FitResult Fit) Search(CoarseSpectrum spectrum, double? nearHz, bool steadfast)
    {
        FitResult Try(double hz) => steadfast ? Steadfast(spectrum, hz) : At(spectrum, hz);
        double centre = nearHz ?? 0, range = nearHz is null ? RangeHz : 1.5 * GridHz;
        double best = centre;
        FitResult fit = default;
        for (double hz = centre - range; hz <= centre + range; hz += GridHz)
        {
            FitResult candidate = Try(hz);
            if (fit.Bins == 0 || candidate.Misfit < fit.Misfit)
            {
                (best, fit) = (hz, candidate);
            }
        }

        double step = GridHz / 2;
        for (int k = 0; k < Steps; k++, step *= Shrink)
        {
            FitResult below = Try(best - step), above = Try(best + step);
            (best, fit) = below.Misfit < fit.Misfit && below.Misfit <= above.Misfit ? (best - step, below)
                : above.Misfit < fit.Misfit ? (best + step, above)
                : (best, fit);
        }

        return (best, fit);
    }

    private FitResult At(CoarseSpectrum spectrum, double hz)
    {
        spectrum.Clean.CopyTo(_use);
        _template.Fill(spectrum.FirstHz - hz, spectrum.StepHz, spectrum.SampleRate, _density);
        return TemplateFit.Fit(spectrum.Power, _density, _use, spectrum.Looks, spectrum.LowerFifth);
    }
}
