using MathNet.Numerics.RootFinding;

namespace Cockpit.Core.Passes;

/// <summary>Roots in time between two instants of opposite sign, by Brent's method.</summary>
internal static class BracketedRoot
{
    private const double AccuracySeconds = 2e-9; // MathNet also stops where the function is this small
    private const int MostRounds = 100;

    /// <summary>Where a function of time is zero.</summary>
    /// <param name="function">Of the time in seconds; of opposite sign at the ends, of the order of 1e-3 or more a second at the root.</param>
    /// <param name="start">Left end, s.</param>
    /// <param name="end">Right end, s.</param>
    /// <returns>The time, s; the best that was reached where rounding keeps it from getting nearer.</returns>
    public static double Between(Func<double, double> function, double start, double end)
    {
        // Counted from the left end, so that a late instant keeps its digits.
        _ = Brent.TryFindRoot(x => function(start + x), 0.0, end - start, AccuracySeconds, MostRounds, out double root);
        return start + Math.Clamp(root, 0.0, end - start);
    }
}
