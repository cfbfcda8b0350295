namespace Cockpit.Core.Estimate;

/// <summary>How far the margin of a well-pointed dish over the threshold is not known, beside what the hypotheses differ in; dB.</summary>
/// <remarks>
/// Without it a belief that the signal is too weak would prove itself: no line could be gained, so no move would be called, and a dish
/// that is off the satellite would stay there.
/// </remarks>
internal readonly record struct LinkDoubt(double Threshold, double Gain, double Both, double Steepness)
{
    private const double HalfSecond = 0.25;

    /// <summary>Doubt of an estimate now.</summary>
    public static LinkDoubt Of(DishEstimate estimate)
    {
        (double gain, double both, double steepness) = estimate.Cloud.LinkVariance();
        return new LinkDoubt(estimate.ThresholdSd * estimate.ThresholdSd, gain, both, steepness);
    }

    /// <summary>Standard deviation of the margin of half a second, fading included, dB.</summary>
    public double Sd(in SkyPoint sky)
    {
        double x = sky.Steepness;
        return Math.Sqrt((sky.FadingDb * sky.FadingDb) + HalfSecond + Threshold + Gain + (2.0 * x * Both) + (x * x * Steepness));
    }
}
