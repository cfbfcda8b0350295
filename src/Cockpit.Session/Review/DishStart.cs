using Cockpit.Core.Units;

namespace Cockpit.Session.Review;

/// <summary>Where the dish may have been beside the belief about it.</summary>
/// <param name="Right">To the right on the sky, radians.</param>
/// <param name="Up">Above, radians.</param>
/// <param name="Share">How likely; all together make one.</param>
internal readonly record struct DishStart(double Right, double Up, double Share)
{
    private const double Degree = Math.PI / 180.0;
    private const double LeastSd = 1.2;
    private const double MostSd = 4.0;
    private const double WideShare = 0.25;
    private const double LeastWide = 4.0;
    private const double MostWide = 7.0;

    // Middle of a ring, its outer edge, directions in it: degrees. The loss changes by less than half a decibel from one to the next.
    private static readonly (double Radius, double Edge, int Directions)[] Rings =
        [(0.0, 0.75, 1), (1.5, 2.25, 6), (3.0, 4.0, 8), (5.0, 6.5, 10), (8.0, 10.0, 12)];

    /// <summary>Places on rings around the belief: mostly as near as it says, sometimes it is wrong altogether.</summary>
    /// <param name="spread">How sure the belief is.</param>
    public static DishStart[] Around(Angle spread)
    {
        double near = Math.Clamp(spread.Degrees, LeastSd, MostSd);
        double wide = Math.Clamp((2.0 * spread.Degrees) + 2.0, LeastWide, MostWide);
        var all = new List<DishStart>();
        double inner = 0.0;
        foreach ((double radius, double edge, int directions) in Rings)
        {
            double area = ((edge * edge) - (inner * inner)) / directions;
            double share = area * (((1.0 - WideShare) * Density(radius, near)) + (WideShare * Density(radius, wide)));
            for (int i = 0; i < directions; i++)
            {
                (double sine, double cosine) = Math.SinCos(i * Math.Tau / directions);
                all.Add(new DishStart(radius * sine * Degree, radius * cosine * Degree, share));
            }

            inner = edge;
        }

        double total = all.Sum(s => s.Share);
        return [.. all.Select(s => s with { Share = s.Share / total })];
    }

    private static double Density(double radius, double sd) => Math.Exp(-0.5 * radius * radius / (sd * sd)) / (sd * sd);
}
