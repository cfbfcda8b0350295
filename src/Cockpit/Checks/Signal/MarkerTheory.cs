using Cockpit.Core.Dsp.Coding;
using MathNet.Numerics;

namespace Cockpit.Checks.Signal;

/// <summary>How often the marker of a frame is found by a receiver that knows its place, but not the phase.</summary>
/// <remarks>
/// The correlation over K known coded bits is a constant in complex Gaussian noise; its share of the power of the symbols it reaches over is
/// compared with a threshold: probability by Marcum's Q function (J. I. Marcum, IRE Trans. Inf. Theory 6 (1960), 59), power taken as known.
/// </remarks>
public static class MarkerTheory
{
    private const double Threshold = 6.0;
    private const double Infinite = 12.0;
    private const int Steps = 4000;

    /// <summary>The probability.</summary>
    /// <param name="rate">How much of the code is sent.</param>
    /// <param name="snrDb">Es/N0, dB.</param>
    public static double Found(CodeRate rate, double snrDb)
    {
        double known = rate == CodeRate.Half ? 54.0 : 104.0 / 3.0;
        double snr = Math.Pow(10.0, snrDb / 10.0);
        double noise = 1.0 / (1.0 + snr);
        return MarcumQ(Math.Sqrt(known * snr / (1.0 + snr) / noise), Math.Sqrt(2.0 * Threshold / noise));
    }

    // The integral of x exp(-(x^2 + a^2) / 2) I0(a x) from b on, by Simpson's rule on the part that counts.
    private static double MarcumQ(double a, double b)
    {
        double from = Math.Max(b, a - Infinite);
        double to = Math.Max(b, a) + Infinite;
        double step = (to - from) / Steps;
        double sum = 0.0;
        for (int k = 0; k <= Steps; k++)
        {
            double weight = k is 0 or Steps ? 1.0 : k % 2 == 1 ? 4.0 : 2.0;
            sum += weight * Density(a, from + (k * step));
        }

        return Math.Clamp(sum * step / 3.0, 0.0, 1.0);
    }

    // I0 grows like exp, so both exponents are taken together.
    private static double Density(double a, double x)
    {
        double product = a * x;
        double scaled = product < 500.0
            ? SpecialFunctions.BesselI0(product) * Math.Exp(-product)
            : 1.0 / Math.Sqrt(Math.Tau * product);
        return x * Math.Exp(-0.5 * (x - a) * (x - a)) * scaled;
    }
}
