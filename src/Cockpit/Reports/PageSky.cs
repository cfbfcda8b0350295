using System.Globalization;
using Cockpit.Core.Geo;
using Cockpit.Core.Units;
using Cockpit.Session.Events;
using Cockpit.Session.Review;

namespace Cockpit.Reports;

/// <summary>The sky over the station: the satellite's way with what was lost on it, the dish as it was believed and how well that was known.</summary>
internal static class PageSky
{
    private const double Width = 400.0;
    private const double Height = 440.0;
    private const double CentreX = Width / 2.0;
    private const double CentreY = 208.0;
    private const double Radius = 184.0;
    private const double MostSpreadDegrees = 20.0;
    private const int PointsBetweenSpreads = 4;

    /// <summary>The plot: north up, east right, the zenith in the middle.</summary>
    public static string Of(SessionReview review, SessionSettings settings, double beamDegrees)
    {
        var svg = new Svg(Width, Height, "Sky plot: way of the satellite, lost parts, believed directions of the dish with their spread", Words(review));
        if (settings.Horizon() is { } horizon)
        {
            Skyline(svg, horizon);
        }

        Rings(svg);
        svg.Group("cloud");
        for (int i = 0; i < review.Course.Length; i += PointsBetweenSpreads)
        {
            if (review.Course[i].Dish is { } dish)
            {
                (double x, double y) = Place(SkyView.Of(dish.Azimuth, dish.Elevation));
                svg.Circle(x, y, Radius * Math.Min(dish.Spread.Degrees, MostSpreadDegrees) / 90.0, "spread");
            }
        }

        svg.EndGroup();
        svg.Path(review.Course.Select(p => Place(SkyView.Dish(p))), "dish");
        svg.Path(review.Course.Select(p => Place(SkyView.Satellite(p))), "sat");
        foreach (LostRun run in LostRun.Of(review))
        {
            svg.Path(
                SkyView.During(review, run.FromUtc, run.ToUtc).Select(p => Place(SkyView.Satellite(p))),
                "gone c-" + CauseWords.NameOf(run.Gap.Cause),
                hint: PageWords.Hint(run.Gap, run.Number));
        }

        var room = new PageRoom();
        Numbers(svg, review, room);
        Minutes(svg, review, room);
        Beam(svg, beamDegrees);
        return svg.ToString();
    }

    private static string Words(SessionReview review)
    {
        CoursePoint[] seen = [.. review.Course.Where(p => p.Azimuth is not null)];
        return seen.Length == 0
            ? "Nothing is known about where the satellite was."
            : string.Create(CultureInfo.InvariantCulture, $"The satellite goes from azimuth {seen[0].Azimuth!.Value.Degrees:0}° to {seen[^1].Azimuth!.Value.Degrees:0}°, at most {review.HighestElevation.Degrees:0}° high.");
    }

    private static void Rings(Svg svg)
    {
        foreach (double elevation in (double[])[0.0, 30.0, 60.0])
        {
            double r = Radius * SkyView.RadiusOf(Angle.FromDegrees(elevation));
            svg.Circle(CentreX, CentreY, r, elevation > 0.0 ? "ring" : "ring strongring");
        }

        foreach ((string name, double x, double y) in ((string, double, double)[])[("N", 0, -1), ("E", 1, 0), ("S", 0, 1), ("W", -1, 0)])
        {
            svg.Line(CentreX, CentreY, CentreX + (Radius * x), CentreY + (Radius * y), "grid");
            svg.Text(CentreX + ((Radius + 11.0) * x), CentreY + ((Radius + 11.0) * y) + 4.0, name, "t strong", "middle");
        }

        foreach (double elevation in (double[])[30.0, 60.0])
        {
            double r = Radius * SkyView.RadiusOf(Angle.FromDegrees(elevation)) * Math.Sqrt(0.5);
            svg.Text(CentreX - r, CentreY + r + 4.0, FormattableString.Invariant($"{elevation:0}°"), "t halo", "middle");
        }
    }

    // What hides the sky, between the horizon and the skyline.
    private static void Skyline(Svg svg, HorizonMask horizon)
    {
        IEnumerable<(double, double)?> Ring(Func<Angle, Angle> elevation) => Enumerable.Range(0, 181).Select(i => Angle.FromDegrees(2 * i % 360))
            .Select(azimuth => ((double, double)?)Place(SkyView.Of(azimuth, elevation(azimuth))));
        svg.Area([Ring(_ => Angle.Zero), Ring(horizon.At)], "skyline");
    }

    private static void Minutes(Svg svg, SessionReview review, PageRoom room)
    {
        for (int i = 1; i < review.Course.Length; i++)
        {
            DateTimeOffset at = review.Course[i].Utc;
            if (at.Minute != review.Course[i - 1].Utc.Minute && SkyView.Satellite(review.Course[i]) is { } p)
            {
                (double x, double y) = Place(p);
                svg.Circle(x, y, 1.8, "tick");
                if (at.Minute % 2 == 0 && room.Takes(x + 7.0, y + 4.0, "00:00", "start"))
                {
                    svg.Text(x + 7.0, y + 4.0, at.ToString("HH:mm", CultureInfo.InvariantCulture), "t halo");
                }
            }
        }
    }

    private static void Numbers(Svg svg, SessionReview review, PageRoom room)
    {
        foreach ((Gap gap, int number) in review.Gaps.Select((g, i) => (g, i + 1)).OrderByDescending(g => g.g.Lines))
        {
            DateTimeOffset at = gap.FromUtc + ((gap.ToUtc - gap.FromUtc) / 2.0);
            string name = number.ToString(CultureInfo.InvariantCulture);
            if (SkyView.During(review, at, at).Select(p => Place(SkyView.Satellite(p))).FirstOrDefault() is { } p && room.Takes(p.X - 7.0, p.Y + 4.0, name, "end"))
            {
                svg.Text(p.X - 7.0, p.Y + 4.0, name, "n halo", "end");
            }
        }
    }

    private static void Beam(Svg svg, double beamDegrees)
    {
        double r = Radius * beamDegrees / 180.0;
        svg.Circle(Width - 8.0 - r, Height - 8.0 - r, r, "beam");
        svg.Text(Width - 14.0 - (2.0 * r), Height - 8.0, string.Create(CultureInfo.InvariantCulture, $"beam {beamDegrees:0.0}°"), "t", "end");
    }

    private static (double X, double Y)? Place((double X, double Y)? p) => p is { } q ? Place(q) : null;

    private static (double X, double Y) Place((double X, double Y) p) => (CentreX + (Radius * p.X), CentreY - (Radius * p.Y));
}
