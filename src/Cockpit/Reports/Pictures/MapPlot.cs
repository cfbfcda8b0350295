using System.Globalization;
using Cockpit.Session.Events;
using Cockpit.Session.Review;
using ScottPlot;
using Angle = Cockpit.Core.Units.Angle;

namespace Cockpit.Reports.Pictures;

/// <summary>The ground that the instrument saw.</summary>
internal static class MapPlot
{
    private const int Wide = 1200;
    private const int High = 1400;
    private const double LeastKm = 600.0;
    private const double Margin = 1.12;

    /// <summary>The map; null where the elements give none.</summary>
    public static byte[]? Draw(SessionReview review, SessionSettings settings, Angle halfAngle, string name)
    {
        if (GroundView.Of(settings, halfAngle) is not { } ground)
        {
            return null;
        }

        Plot plot = Sheet.New(name + ": ground");
        plot.DataBackground.Color = Color.FromHex("#edf2f7");
        double reach = Frame(plot, ground, review);
        plot.Draw(ground.Coast(reach), Color.FromHex("#8f99a6"), 1);
        plot.Fill(ground.Swath(review.FromUtc, review.ToUtc), Sheet.Line.WithAlpha(0.1), Sheet.Line);
        foreach (LostRun run in LostRun.Of(review))
        {
            plot.Fill(ground.Swath(run.FromUtc, run.ToUtc), Sheet.Of(run.Gap.Cause));
        }

        plot.Draw(ground.Track(review.FromUtc, review.ToUtc), Sheet.Ink, 1.6f);
        plot.Add.Marker(0.0, 0.0, MarkerShape.FilledCircle, 9, Sheet.Line);
        plot.Write(PageWords.Short(settings.StationName), 0.0, 0.0, Alignment.LowerRight, offsetX: -6, offsetY: -4);
        for (var at = new DateTimeOffset(((review.FromUtc.UtcTicks / TimeSpan.TicksPerMinute) + 1) * TimeSpan.TicksPerMinute, TimeSpan.Zero); at < review.ToUtc; at = at.AddMinutes(1))
        {
            if (ground.Seen(at, 0.0) is { } p)
            {
                plot.Add.Marker(p.East, p.North, MarkerShape.FilledCircle, 4, Sheet.Ink);
                plot.Write(at.Minute % 2 == 0 ? at.ToString("HH:mm", CultureInfo.InvariantCulture) : "", p.East, p.North, Alignment.MiddleLeft, Sheet.Soft, offsetX: 8);
            }
        }

        Numbers(plot, ground, review);
        plot.Causes(review);
        return plot.Png(Wide, High);
    }

    // The numbers of the larger gaps, beside the right end of their lines.
    private static void Numbers(Plot plot, GroundView ground, SessionReview review)
    {
        double pixel = Math.Max(1.0, plot.Axes.GetLimits().HorizontalSpan / (Wide / 2.0));
        var room = new PageRoom();
        foreach ((Gap gap, int number) in review.Gaps.Select((g, i) => (g, i + 1)).OrderByDescending(g => g.g.Lines))
        {
            string name = number.ToString(CultureInfo.InvariantCulture);
            if (ground.Seen(gap.FromUtc + ((gap.ToUtc - gap.FromUtc) / 2.0), 1.0) is { } p && room.Takes(p.East / pixel, p.North / pixel, name, "middle"))
            {
                plot.Write(name, p.East, p.North, Alignment.MiddleLeft, offsetX: 6);
            }
        }
    }

    private static double Frame(Plot plot, GroundView ground, SessionReview review)
    {
        (double East, double North)[] shape = [.. ground.Swath(review.FromUtc, review.ToUtc).OfType<(double, double)>(), (0.0, 0.0)];
        (double east, double north) = ((shape.Max(p => p.East) + shape.Min(p => p.East)) / 2.0, (shape.Max(p => p.North) + shape.Min(p => p.North)) / 2.0);
        double half = Margin * Math.Max(LeastKm, Math.Max(shape.Max(p => p.East) - east, shape.Max(p => p.North) - north));
        plot.Plain(east - half, east + half, north - half, north + half);
        plot.Write(Coastlines.Credit, east + (0.98 * half), north - (0.98 * half), Alignment.LowerRight, Sheet.Soft);
        return (2.0 * half) + Math.Sqrt((east * east) + (north * north));
    }
}
