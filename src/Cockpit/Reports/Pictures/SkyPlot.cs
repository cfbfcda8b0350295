using System.Globalization;
using Cockpit.Session.Review;
using ScottPlot;
using Angle = Cockpit.Core.Units.Angle;

namespace Cockpit.Reports.Pictures;

/// <summary>The sky over the station.</summary>
internal static class SkyPlot
{
    private const int Side = 1200;
    private const int High = 1340;
    private const int PointsBetweenSpreads = 4;
    private const double MostSpreadDegrees = 20.0;

    /// <summary>The plot: north up, east right, the zenith in the middle.</summary>
    public static byte[] Draw(SessionReview review, string name)
    {
        Plot plot = Sheet.New(name + ": sky");
        plot.Plain(-1.15, 1.15, -1.15, 1.15);
        foreach (double elevation in (double[])[0.0, 30.0, 60.0])
        {
            double r = SkyView.RadiusOf(Angle.FromDegrees(elevation));
            var ring = plot.Add.Circle(0.0, 0.0, r);
            ring.LineColor = elevation > 0.0 ? Sheet.Faint : Sheet.Soft;
            ring.LineWidth = 1;
            ring.FillColor = Colors.Transparent;
            plot.Write(string.Create(CultureInfo.InvariantCulture, $"{elevation:0}°"), -r * 0.7071, -r * 0.7071, Alignment.MiddleCenter, Sheet.Soft);
        }

        foreach ((string point, double x, double y) in ((string, double, double)[])[("N", 0, 1), ("E", 1, 0), ("S", 0, -1), ("W", -1, 0)])
        {
            plot.Draw([(0.0, 0.0), (x, y)], Sheet.Faint, 1);
            plot.Write(point, 1.07 * x, 1.07 * y, Alignment.MiddleCenter);
        }

        Spread(plot, review);
        plot.Draw(review.Course.Select(SkyView.Dish), Sheet.Line, 1);
        plot.Draw(review.Course.Select(SkyView.Satellite), Sheet.Ink, 1.6f);
        foreach (LostRun run in LostRun.Of(review))
        {
            plot.Draw(SkyView.During(review, run.FromUtc, run.ToUtc).Select(SkyView.Satellite), Sheet.Of(run.Gap.Cause), 6);
        }

        Minutes(plot, review);
        plot.Causes(review);
        return plot.Png(Side, High);
    }

    // Where the dish may have been, faint, in one tone however many circles lie over each other.
    private static void Spread(Plot plot, SessionReview review)
    {
        for (int i = 0; i < review.Course.Length; i += PointsBetweenSpreads)
        {
            if (review.Course[i].Dish is { } dish)
            {
                (double x, double y) = SkyView.Of(dish.Azimuth, dish.Elevation);
                var circle = plot.Add.Circle(x, y, Math.Min(dish.Spread.Degrees, MostSpreadDegrees) / 90.0);
                circle.FillColor = Color.FromHex("#dbe4ee");
                circle.LineWidth = 0;
            }
        }
    }

    private static void Minutes(Plot plot, SessionReview review)
    {
        for (int i = 1; i < review.Course.Length; i++)
        {
            DateTimeOffset at = review.Course[i].Utc;
            if (at.Minute != review.Course[i - 1].Utc.Minute && SkyView.Satellite(review.Course[i]) is { } p)
            {
                plot.Add.Marker(p.X, p.Y, MarkerShape.FilledCircle, 4, Sheet.Ink);
                if (at.Minute % 2 == 0)
                {
                    plot.Write(at.ToString("HH:mm", CultureInfo.InvariantCulture), p.X, p.Y, Alignment.MiddleLeft, Sheet.Soft, offsetX: 8);
                }
            }
        }
    }
}
