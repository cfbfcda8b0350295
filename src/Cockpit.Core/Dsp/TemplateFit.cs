namespace Cockpit.Core.Dsp;

/// <summary>What a template says of a spectrum.</summary>
/// <param name="Noise">Noise floor: power of white noise of this density in the whole band.</param>
/// <param name="Signal">Power of the signal that has the template's shape.</param>
/// <param name="SignalError">Standard error of <paramref name="Signal"/>.</param>
/// <param name="Misfit">Mean deviance of the bins, each capped; about 1 where the model is right.</param>
/// <param name="Bins">Bins that counted.</param>
public readonly record struct FitResult(double Noise, double Signal, double SignalError, double Misfit, int Bins)
{
    /// <summary>How many standard errors the signal stands above nothing.</summary>
    public double Significance => SignalError > 0 ? Signal / SignalError : 0;
}

/// <summary>Fits noise floor and signal power to a spectrum: M = n + a D, the bins gamma distributed.</summary>
/// <remarks>
/// Maximum likelihood by Fisher scoring: weighted least squares with the weights 1/M^2 of the last model, a few times over.
/// Source: P. McCullagh, J. A. Nelder, Generalized Linear Models, 2nd ed., chapter 8 (gamma errors, identity link).
/// </remarks>
public static class TemplateFit
{
    private const int Rounds = 6;
    private const double DevianceCap = 12;

    // A hundredth of the finest spread that a window of 100 ms has.
    private const double Settled = 1e-4;

    /// <summary>Fits.</summary>
    /// <param name="power">The spectrum.</param>
    /// <param name="density">The template at the same frequencies.</param>
    /// <param name="use">Which bins count.</param>
    /// <param name="looks">Independent values that were averaged in each bin.</param>
    /// <param name="floor">A first guess of the noise floor; above 0.</param>
    public static FitResult Fit(ReadOnlySpan<float> power, ReadOnlySpan<float> density, ReadOnlySpan<bool> use, double looks, double floor)
    {
        double n = floor, a = Start(power, density, use, floor), error = 0;
        int bins = 0;
        for (int round = 0; round < Rounds; round++)
        {
            double w0 = 0, w1 = 0, w2 = 0, p0 = 0, p1 = 0;
            bins = 0;
            for (int k = 0; k < power.Length; k++)
            {
                if (!use[k])
                {
                    continue;
                }

                double model = n + (a * density[k]);
                double weight = 1 / (model * model);
                double weighted = weight * density[k];
                w0 += weight;
                w1 += weighted;
                w2 += weighted * density[k];
                p0 += weight * power[k];
                p1 += weighted * power[k];
                bins++;
            }

            double determinant = (w0 * w2) - (w1 * w1);
            if (bins < 8 || determinant <= 1e-12 * w0 * w2)
            {
                return new FitResult(n, 0, 0, DevianceCap, bins);
            }

            (double before, double signalBefore) = (n, a);
            n = Math.Max(((w2 * p0) - (w1 * p1)) / determinant, floor * 1e-3);
            a = Math.Max(((w0 * p1) - (w1 * p0)) / determinant, 0);
            error = Math.Sqrt(w0 / determinant / looks);
            if (Math.Abs(n - before) < Settled * n && Math.Abs(a - signalBefore) < Settled * (n + a))
            {
                break;
            }
        }

        return new FitResult(n, a, error, Misfit(power, density, use, looks, n, a), bins);
    }

    /// <summary>Takes out of the bins that count those that stand far above a model.</summary>
    /// <returns>Whether any was taken out.</returns>
    public static bool DropAbove(ReadOnlySpan<float> power, ReadOnlySpan<float> density, Span<bool> use, double looks, in FitResult fit)
    {
        const double TooFar = 4.5;
        double limit = 1 + (TooFar / Math.Sqrt(looks));
        bool any = false;
        for (int k = 0; k < power.Length; k++)
        {
            if (use[k] && power[k] > limit * (fit.Noise + (fit.Signal * density[k])))
            {
                use[k] = false;
                any = true;
            }
        }

        return any;
    }

    /// <summary>How well a fit explains a set of bins that may be another than it was made with; each bin counts for so much at most.</summary>
    public static double Misfit(ReadOnlySpan<float> power, ReadOnlySpan<float> density, ReadOnlySpan<bool> use, double looks, in FitResult fit) =>
        Misfit(power, density, use, looks, fit.Noise, fit.Signal);

    private static double Start(ReadOnlySpan<float> power, ReadOnlySpan<float> density, ReadOnlySpan<bool> use, double floor)
    {
        double above = 0, shape = 0;
        for (int k = 0; k < power.Length; k++)
        {
            if (use[k])
            {
                above += power[k] - floor;
                shape += density[k];
            }
        }

        return shape > 0 ? Math.Max(above / shape, 0) : 0;
    }

    private static double Misfit(ReadOnlySpan<float> power, ReadOnlySpan<float> density, ReadOnlySpan<bool> use, double looks, double n, double a)
    {
        double sum = 0;
        int bins = 0;
        for (int k = 0; k < power.Length; k++)
        {
            if (use[k])
            {
                double ratio = Math.Max(power[k] / (n + (a * density[k])), 1e-6);
                sum += Math.Min(2 * looks * (ratio - 1 - Math.Log(ratio)), DevianceCap);
                bins++;
            }
        }

        return bins > 0 ? sum / bins : DevianceCap;
    }
}
