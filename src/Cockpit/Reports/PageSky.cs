using Cockpit.Core.Units;
using Cockpit.Session.Review;

namespace Cockpit.Reports;

/// <summary>The sky over the station: the satellite's way with what was lost on it, and the dish.</summary>
internal static class PageSky
{
    private const double Size = 420.0;
    private const double Centre = Size / 2.0;
    private const double Radius = 186.0;
    private const int PointsBetweenSpreads = 60;

    /// <summary>The plot: north up, east right, the zenith in the middle.</summary>
    public static string Of(SessionReview review)
    {
        var svg = new Svg(Size, Size, "Sky plot: way of the satellite, lost parts, believed directions of the dish with their spread");
        foreach (double elevation in (double[])[0.0, 30.0, 60.0])
        {
            svg.Circle(Centre, Centre, Radius * (90.0 - elevation) / 90.0, "ring");
            svg.Text(Centre + 3.0, Centre - (Radius * (90.0 - elevation) / 90.0) + 13.0, FormattableString.Invariant($"{elevation:0}°"));
        }

        foreach ((string name, double x, double y) in ((string, double, double)[])[("N", 0, -1), ("E", 1, 0), ("S", 0, 1), ("W", -1, 0)])
        {
            svg.Line(Centre, Centre, Centre + (Radius * x), Centre + (Radius * y), "grid");
            svg.Text(Centre + ((Radius + 11.0) * x), Centre + ((Radius + 11.0) * y) + 4.0, name, "t", "middle");
        }

        for (int i = 0; i < review.Course.Length; i += PointsBetweenSpreads)
        {
            if (review.Course[i].Dish is { } dish)
            {
                (double x, double y) = Place(dish.Azimuth, dish.Elevation);
                svg.Circle(x, y, Radius * Math.Min(dish.Spread.Degrees, 20.0) / 90.0, "spread");
            }
        }

        svg.Path(review.Course.Select(p => p.Dish is { } d ? ((double, double)?)Place(d.Azimuth, d.Elevation) : null), "dish");
        svg.Path(review.Course.Select(Satellite), "sat");
        foreach (Gap gap in review.Gaps)
        {
            svg.Path(
                review.Course.Where(p => p.Utc >= gap.FromUtc - TimeSpan.FromSeconds(0.5) && p.Utc <= gap.ToUtc + TimeSpan.FromSeconds(0.5)).Select(Satellite),
                "gone s-" + CauseWords.NameOf(gap.Cause),
                hint: PageWords.Hint(gap));
        }

        return svg.ToString();
    }

    private static (double X, double Y)? Satellite(CoursePoint point) =>
        point is { Azimuth: { } azimuth, Elevation: { } elevation } ? Place(azimuth, elevation) : null;

    private static (double X, double Y) Place(Angle azimuth, Angle elevation)
    {
        double r = Radius * (90.0 - Math.Clamp(elevation.Degrees, -5.0, 90.0)) / 90.0;
        return (Centre + (r * azimuth.Sin()), Centre - (r * azimuth.Cos()));
    }
}
