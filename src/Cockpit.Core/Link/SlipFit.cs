namespace Cockpit.Core.Link;

/// <summary>A measured carrier beside its prediction.</summary>
/// <param name="Seconds">When, on any scale.</param>
/// <param name="OffsetHz">Measured offset, Hz.</param>
/// <param name="ShiftHz">Predicted Doppler shift, Hz.</param>
/// <param name="RateHzPerSec">Its predicted rate, Hz/s.</param>
public readonly record struct SlipPoint(double Seconds, double OffsetHz, double ShiftHz, double RateHzPerSec);

/// <summary>How early a carrier runs through its Doppler curve.</summary>
/// <param name="Follows">The receiver follows the prediction already: its offsets are what is left.</param>
/// <param name="SlipSeconds">The curve comes so much earlier than predicted, s; negative = later. Null where the geometry says nothing.</param>
/// <param name="Sd">Its standard deviation, s; infinite where there is none.</param>
public readonly record struct Slip(bool Follows, double? SlipSeconds, double Sd);

/// <summary>Fits the slip in time that explains what is left between a measured carrier and the prediction. Pure.</summary>
/// <remarks>
/// difference = c + d t + s D' with D' the rate of the shift: c is the error of the oscillators and d its drift, which is held near zero by what
/// oscillators in the field do; s is the slip. Where D' hardly changes, or changes as evenly as a drift, s is not to be had, and its
/// standard deviation says so. Linear least squares with a prior on d, done again and again: what is far off one fit does not count in the next.
/// </remarks>
public static class SlipFit
{
    /// <summary>Fewer points say nothing.</summary>
    public const int Fewest = 20;

    /// <summary>A slip that is not known to this is none, s.</summary>
    public const double MostSd = 1.0;

    // A receiver that warms up or cools down outdoors: half a part in a million in ten minutes is 1.4 Hz/s at 1.7 GHz. Common practice, no source.
    private const double DriftHzPerSec = 2.0;

    // Errors of oscillators hang together for some seconds, so that points closer than that are not worth as many.
    private const double CorrelationSeconds = 5.0;
    private const double LeastNoiseHz = 5.0;
    private const double FarOff = 4.0;
    private const int Rounds = 4;
    private const double SdOfMedianDeviation = 1.4826;

    /// <summary>The slip of a stretch.</summary>
    /// <param name="points">At least a second apart from first to last, in any order.</param>
    public static Slip Of(ReadOnlySpan<SlipPoint> points)
    {
        bool follows = points.Length >= Fewest && Spread(points, 0.0) < Spread(points, 1.0);
        if (points.Length < Fewest)
        {
            return new Slip(follows, null, double.PositiveInfinity);
        }

        double[] left = new double[points.Length];
        Solution solution = Solve(points, follows, left, double.PositiveInfinity, LeastNoiseHz);
        for (int round = 0; round < Rounds; round++)
        {
            double noise = Math.Max(MedianSize(left) * SdOfMedianDeviation, LeastNoiseHz);
            solution = Solve(points, follows, left, FarOff * noise, noise);
        }

        return solution.Sd <= MostSd && solution.Counted >= Fewest && double.IsFinite(solution.Slip)
            ? new Slip(follows, solution.Slip, solution.Sd)
            : new Slip(follows, null, double.PositiveInfinity);
    }

    /// <summary>What is left of a point when the prediction is taken off, Hz.</summary>
    /// <param name="point">The point.</param>
    /// <param name="follows">The receiver has taken it off itself.</param>
    public static double DifferenceHz(in SlipPoint point, bool follows) => follows ? point.OffsetHz : point.OffsetHz - point.ShiftHz;

    /// <param name="points">The stretch.</param>
    /// <param name="follows">What is fitted.</param>
    /// <param name="left">What the solution before left of each point; receives what this one leaves.</param>
    /// <param name="most">Points of which more was left do not count.</param>
    /// <param name="noise">Noise of a point, Hz.</param>
    private static Solution Solve(ReadOnlySpan<SlipPoint> points, bool follows, Span<double> left, double most, double noise)
    {
        double n = 0, meanT = 0, meanR = 0, meanY = 0, first = double.MaxValue, last = double.MinValue;
        for (int k = 0; k < points.Length; k++)
        {
            if (Math.Abs(left[k]) <= most)
            {
                n++;
                meanT += points[k].Seconds;
                meanR += points[k].RateHzPerSec;
                meanY += DifferenceHz(points[k], follows);
                (first, last) = (Math.Min(first, points[k].Seconds), Math.Max(last, points[k].Seconds));
            }
        }

        (meanT, meanR, meanY) = (meanT / n, meanR / n, meanY / n);
        double variance = noise * noise * Math.Max(1.0, CorrelationSeconds * (n - 1) / (last - first));
        double tt = variance / (DriftHzPerSec * DriftHzPerSec), tr = 0, rr = 0, ty = 0, ry = 0;
        for (int k = 0; k < points.Length; k++)
        {
            if (Math.Abs(left[k]) <= most)
            {
                (double t, double r, double y) = (points[k].Seconds - meanT, points[k].RateHzPerSec - meanR, DifferenceHz(points[k], follows) - meanY);
                (tt, tr, rr, ty, ry) = (tt + (t * t), tr + (t * r), rr + (r * r), ty + (t * y), ry + (r * y));
            }
        }

        double determinant = (tt * rr) - (tr * tr);
        double drift = ((rr * ty) - (tr * ry)) / determinant;
        double slip = ((tt * ry) - (tr * ty)) / determinant;
        for (int k = 0; k < points.Length; k++)
        {
            left[k] = DifferenceHz(points[k], follows) - meanY - (drift * (points[k].Seconds - meanT)) - (slip * (points[k].RateHzPerSec - meanR));
        }

        return new Solution(slip, Math.Sqrt(variance * tt / determinant), (int)n);
    }

    private static double Spread(ReadOnlySpan<SlipPoint> points, double share)
    {
        double sum = 0, square = 0;
        foreach (SlipPoint point in points)
        {
            double value = point.OffsetHz - (share * point.ShiftHz);
            sum += value;
            square += value * value;
        }

        return square - (sum * sum / points.Length);
    }

    private static double MedianSize(ReadOnlySpan<double> values)
    {
        double[] sizes = new double[values.Length];
        for (int k = 0; k < sizes.Length; k++)
        {
            sizes[k] = Math.Abs(values[k]);
        }

        Array.Sort(sizes);
        return sizes[sizes.Length / 2];
    }

    private readonly record struct Solution(double Slip, double Sd, int Counted);
}
