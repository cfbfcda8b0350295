using System.Collections.Immutable;

namespace Cockpit.Session.Review;

/// <summary>Fits how early or late the measured carrier is against the prediction.</summary>
internal static class DopplerReviewer
{
    private const int Fewest = 60;
    private const double CurveWanted = 20.0; // Hz/s of spread in the rate: less says nothing about time

    /// <summary>
    /// offset = a D + s D' + c with the shift D and its rate D': a is 1 for a receiver that stands still and 0 for one that follows the
    /// prediction; s is the slip, c the error of the oscillators.
    /// </summary>
    /// <returns>Null when the feed tells too little.</returns>
    public static DopplerSlip? Make(ImmutableArray<CarrierOffset> offsets)
    {
        if (offsets.Length < Fewest)
        {
            return null;
        }

        var still = Fit(offsets, 1.0);
        var following = Fit(offsets, 0.0);
        (double slip, double sd, double residual) = still.Residual < following.Residual ? still : following;
        return double.IsFinite(slip) && double.IsFinite(sd) && residual >= 0.0 ? new DopplerSlip(slip, sd) : null;
    }

    private static (double Slip, double Sd, double Residual) Fit(ImmutableArray<CarrierOffset> offsets, double share)
    {
        int n = offsets.Length;
        double meanRate = offsets.Average(o => o.DopplerHzPerSec);
        double meanLeft = offsets.Average(o => o.OffsetHz - (share * o.DopplerHz));
        double rr = offsets.Sum(o => (o.DopplerHzPerSec - meanRate) * (o.DopplerHzPerSec - meanRate));
        double rl = offsets.Sum(o => (o.DopplerHzPerSec - meanRate) * (o.OffsetHz - (share * o.DopplerHz) - meanLeft));
        if (rr < n * CurveWanted * CurveWanted)
        {
            return (double.NaN, double.NaN, double.MaxValue);
        }

        double slip = rl / rr;
        double left = offsets.Sum(o =>
        {
            double e = o.OffsetHz - (share * o.DopplerHz) - meanLeft - (slip * (o.DopplerHzPerSec - meanRate));
            return e * e;
        });
        return (slip, Math.Sqrt(left / (n - 2) / rr), left);
    }
}
