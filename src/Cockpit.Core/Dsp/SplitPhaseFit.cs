namespace Cockpit.Core.Dsp;

/// <summary>Noise and power of a split-phase signal whose carrier is known, from the spectrum.</summary>
/// <remarks>
/// Words of a picture resemble their neighbours, so the spectrum has lines at the word rate that belong to the signal; bins that stand out
/// must not be thrown away for that. But the modulation is real: the spectrum is the same on both sides of the carrier, lines and all.
/// What stands on one side only is an interferer, and only that is left out.
/// </remarks>
public sealed class SplitPhaseFit
{
    // A tenth of the bit rate: the lines of a picture are so far apart; averaged over so much they vanish.
    private const double WordRate = SpectrumTemplate.SplitPhaseRate / 10;

    // A front end that is not flat makes the sides unequal by less than this.
    private const double TooUnequal = 1.35;

    private const double Hill = 1.7;
    private const int Rounds = 3;

    private readonly SpectrumTemplate _template = SpectrumTemplate.SplitPhase();
    private readonly float[] _density;
    private readonly double[] _running;
    private readonly bool[] _use;
    private readonly bool[] _drop;
    private readonly int _halfWord;

    /// <summary>Prepares for spectra of one size.</summary>
    public SplitPhaseFit(CoarseSpectrum spectrum)
    {
        _density = new float[spectrum.Size];
        _running = new double[spectrum.Size + 1];
        _use = new bool[spectrum.Size];
        _drop = new bool[spectrum.Size];
        _halfWord = Math.Max(1, (int)(0.5 * WordRate / spectrum.StepHz));
    }

    /// <summary>Fits.</summary>
    /// <param name="spectrum">The spectrum.</param>
    /// <param name="carrierHz">The carrier; the template stands about it.</param>
    /// <param name="lineHalfWidthHz">So much on each side of the carrier is left out: the residual carrier is no part of the template.</param>
    public FitResult Fit(CoarseSpectrum spectrum, double carrierHz, double lineHalfWidthHz)
    {
        _template.Fill(spectrum.FirstHz - carrierHz, spectrum.StepHz, spectrum.SampleRate, _density);
        spectrum.Clean.CopyTo(_use);
        LeaveOutCarrier(spectrum, carrierHz, lineHalfWidthHz);
        LeaveOutOneSided(spectrum, carrierHz);
        FitResult fit = TemplateFit.Fit(spectrum.Power, _density, _use, spectrum.Looks, spectrum.LowerFifth);
        for (int k = 0; k < Rounds && LeaveOutHills(spectrum, fit); k++)
        {
            fit = TemplateFit.Fit(spectrum.Power, _density, _use, spectrum.Looks, spectrum.LowerFifth);
        }

        return fit;
    }

    // An interferer across the carrier has both sides alike; but averaged over the word rate a picture is as smooth as the template.
    private bool LeaveOutHills(CoarseSpectrum spectrum, in FitResult fit)
    {
        for (int k = 0; k < _density.Length; k++)
        {
            _running[k + 1] = _running[k] + (spectrum.Power[k] / (fit.Noise + (fit.Signal * _density[k])));
        }

        bool any = false;
        for (int k = 0; k < _density.Length; k++)
        {
            if (_use[k] && Around(k) > Hill)
            {
                _use[k] = false;
                any = true;
            }
        }

        return any;
    }

    private void LeaveOutCarrier(CoarseSpectrum spectrum, double carrierHz, double halfWidthHz)
    {
        double half = (halfWidthHz / spectrum.StepHz) + 0.5;
        double at = spectrum.IndexOf(carrierHz);
        for (int k = Math.Max(0, (int)Math.Floor(at - half)); k <= Math.Min(spectrum.Size - 1, (int)Math.Ceiling(at + half)); k++)
        {
            _use[k] = false;
        }
    }

    private void LeaveOutOneSided(CoarseSpectrum spectrum, double carrierHz)
    {
        ReadOnlySpan<float> power = spectrum.Power;
        int mirror = (int)Math.Round(2 * spectrum.IndexOf(carrierHz));
        double line = 1 + (4.5 * Math.Sqrt(2 / spectrum.Looks));
        Array.Clear(_drop);
        for (int k = 0; k < power.Length; k++)
        {
            _running[k + 1] = _running[k] + power[k];
        }

        for (int k = 0; k < power.Length; k++)
        {
            int other = mirror - k;
            if (other < 2 || other > power.Length - 3 || !spectrum.Clean[other])
            {
                // No other side to compare with.
                _use[k] = false;
                continue;
            }

            float opposite = Math.Max(Math.Max(power[other - 1], power[other]), power[other + 1]);
            if (_use[k] && (power[k] > line * opposite || Around(k) > TooUnequal * Around(other)))
            {
                _drop[k] = true;
            }
        }

        for (int k = 2; k < power.Length - 2; k++)
        {
            _use[k] &= !(_drop[k - 2] || _drop[k - 1] || _drop[k] || _drop[k + 1] || _drop[k + 2]);
        }
    }

    private double Around(int k)
    {
        int half = Math.Min(_halfWord, Math.Min(k, _running.Length - 2 - k));
        return (_running[k + half + 1] - _running[k - half]) / ((2 * half) + 1);
    }
}
