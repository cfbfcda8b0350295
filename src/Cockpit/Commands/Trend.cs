using MathNet.Numerics.Distributions;

namespace Cockpit.Commands;

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
        int n = values.Count;
        if (n < Fewest)
        {
            return null;
        }

        double meanX = (n - 1) / 2.0;
        double meanY = values.Average();
        double xx = 0.0;
        double xy = 0.0;
        for (int i = 0; i < n; i++)
        {
            xx += (i - meanX) * (i - meanX);
            xy += (i - meanX) * (values[i] - meanY);
        }

        double slope = xy / xx;
        double left = values.Select((y, i) => y - meanY - (slope * (i - meanX))).Sum(e => e * e);
        double reach = StudentT.InvCDF(0.0, 1.0, n - 2, 0.975) * Math.Sqrt(left / (n - 2) / xx);
        return left > 0.0 ? new Trend(slope, slope - reach, slope + reach) : null;
    }
}
