using Cockpit.Core.Units;
using Cockpit.Session.Review;

namespace Cockpit.Reports;

/// <summary>The sky over the station in a plane: north up, east right, the zenith at 0, 0, the horizon at distance 1.</summary>
internal static class SkyView
{
    /// <summary>A direction on the plane.</summary>
    public static (double X, double Y) Of(Angle azimuth, Angle elevation)
    {
        double r = RadiusOf(elevation);
        return (r * azimuth.Sin(), r * azimuth.Cos());
    }

    /// <summary>Distance from the zenith.</summary>
    public static double RadiusOf(Angle elevation) => (90.0 - Math.Clamp(elevation.Degrees, -5.0, 90.0)) / 90.0;

    /// <summary>The satellite; null where unknown.</summary>
    public static (double X, double Y)? Satellite(CoursePoint point) => point is { Azimuth: { } azimuth, Elevation: { } elevation } ? Of(azimuth, elevation) : null;

    /// <summary>The dish as believed; null where unknown.</summary>
    public static (double X, double Y)? Dish(CoursePoint point) => point.Dish is { } dish ? Of(dish.Azimuth, dish.Elevation) : null;

    /// <summary>The points of a stretch of time, half a second more at either end.</summary>
    public static IEnumerable<CoursePoint> During(SessionReview review, DateTimeOffset from, DateTimeOffset to) =>
        review.Course.Where(p => p.Utc >= from - TimeSpan.FromSeconds(0.5) && p.Utc <= to + TimeSpan.FromSeconds(0.5));
}
