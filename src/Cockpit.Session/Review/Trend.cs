using MathNet.Numerics.Distributions;

namespace Cockpit.Session.Review;

/// <summary>How a figure changes from one session to the next: a straight line with its 95 % interval.</summary>
/// <param name="Slope">Change a session.</param>
/// <param name="Low">Lower end of the interval.</param>
/// <param name="High">Upper end.</param>
public readonly record struct Trend(double Slope, double Low, double High)
{
    private const int Fewest = 4;

    /// <summary>Whether the numbers carry a change at all.</summary>
    public bool IsCarried => Low > 0.0 || High < 0.0;

    /// <summary>Fits the line by least squares.</summary>
    /// <param name="values">In order of time.</param>
    /// <returns>Null for fewer than four, or when all are the same.</returns>
    public static Trend? Of(IReadOnlyList<double> values)
    {
        ArgumentNullException.ThrowIfNull(values);
        return values.Count < Fewest ? null : Fit([.. Enumerable.Range(0, values.Count).Select(i => (double)i)], values, values.Count - 2);
    }

    /// <summary>The same with the part taken out that goes with something else, as the share of lines goes with the height of the pass.</summary>
    /// <param name="values">In order of time.</param>
    /// <param name="beside">What else they go with, one for each.</param>
    /// <returns>Null for fewer than five, or when nothing is left over.</returns>
    /// <remarks>Both are freed from the straight line in <paramref name="beside"/> first; R. Frisch, F. V. Waugh, Econometrica 1 (1933) 387.</remarks>
    public static Trend? Of(IReadOnlyList<double> values, IReadOnlyList<double> beside)
    {
        ArgumentNullException.ThrowIfNull(values);
        ArgumentNullException.ThrowIfNull(beside);
        ArgumentOutOfRangeException.ThrowIfNotEqual(beside.Count, values.Count, nameof(beside));
        if (values.Count <= Fewest)
        {
            return null;
        }

        double[] order = [.. Enumerable.Range(0, values.Count).Select(i => (double)i)];
        return Fit(Freed(order, beside), Freed(values, beside), values.Count - 3);
    }

    private static Trend? Fit(double[] x, IReadOnlyList<double> y, int freedom)
    {
        (double slope, double xx) = Line(x, y);
        double meanX = x.Average();
        double meanY = y.Average();
        double left = y.Select((value, i) => value - meanY - (slope * (x[i] - meanX))).Sum(e => e * e);
        double reach = StudentT.InvCDF(0.0, 1.0, freedom, 0.975) * Math.Sqrt(left / freedom / xx);
        return left > 1e-18 && xx > 1e-9 ? new Trend(slope, slope - reach, slope + reach) : null;
    }

    private static double[] Freed(IReadOnlyList<double> values, IReadOnlyList<double> beside)
    {
        (double slope, double xx) = Line(beside, values);
        double meanX = beside.Average();
        double meanY = values.Average();
        return [.. values.Select((value, i) => value - meanY - (xx > 1e-9 ? slope * (beside[i] - meanX) : 0.0))];
    }

    private static (double Slope, double Xx) Line(IReadOnlyList<double> x, IReadOnlyList<double> y)
    {
        double meanX = x.Average();
        double meanY = y.Average();
        double xx = 0.0;
        double xy = 0.0;
        for (int i = 0; i < x.Count; i++)
        {
            xx += (x[i] - meanX) * (x[i] - meanX);
            xy += (x[i] - meanX) * (y[i] - meanY);
        }

        return (xy / xx, xx);
    }
}
