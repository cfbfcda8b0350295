using System.Globalization;
using Cockpit.Core.Units;
using Cockpit.Session.Events;
using Cockpit.Session.Review;

namespace Cockpit.Reports;

/// <summary>The ground that the instrument saw: track, swath, and the lost lines where they lie.</summary>
internal sealed class PageMap
{
    private const double Width = 400.0;
    private const double Height = 440.0;
    private const double Margin = 30.0;
    private const double ReachShare = 0.6; // of the diagonal: half of it, and some for the chords
    private const double LeastKm = 1200.0;
    private const int GridDegrees = 10;

    private readonly GroundView _ground;
    private readonly SessionReview _review;
    private readonly double _unitsPerKm;
    private readonly (double East, double North) _middle;
    private readonly PageRoom _room = new();

    private PageMap(GroundView ground, SessionReview review)
    {
        _ground = ground;
        _review = review;
        (double East, double North)[] shape = [.. ground.Swath(review.FromUtc, review.ToUtc).OfType<(double, double)>(), (0.0, 0.0)];
        double east = Math.Max(LeastKm, shape.Max(p => p.East) - shape.Min(p => p.East));
        double north = Math.Max(LeastKm, shape.Max(p => p.North) - shape.Min(p => p.North));
        _middle = ((shape.Max(p => p.East) + shape.Min(p => p.East)) / 2.0, (shape.Max(p => p.North) + shape.Min(p => p.North)) / 2.0);
        _unitsPerKm = Math.Min((Width - (2.0 * Margin)) / east, (Height - (2.0 * Margin)) / north);
    }

    /// <summary>The map; empty where the elements give none.</summary>
    /// <param name="review">The review.</param>
    /// <param name="settings">Station and elements.</param>
    /// <param name="halfAngle">The scan to either side of the vertical.</param>
    public static string Of(SessionReview review, SessionSettings settings, Angle halfAngle) =>
        GroundView.Of(settings, halfAngle) is { } ground ? new PageMap(ground, review).Draw(settings) : "";

    private string Draw(SessionSettings settings)
    {
        var svg = new Svg(Width, Height, "Map: ground track and swath, lost lines across it, coastlines", Words());
        svg.Box(0.0, 0.0, Width, Height, "sea");
        double reach = (ReachShare * Math.Sqrt((Width * Width) + (Height * Height)) / _unitsPerKm) + Math.Sqrt((_middle.East * _middle.East) + (_middle.North * _middle.North));
        svg.Area(_ground.Land(reach).Select(shape => shape.Select(Place)), "land");
        Graticule(svg);
        svg.Path(_ground.Swath(_review.FromUtc, _review.ToUtc).Select(Place), "swath", closed: true);
        foreach (LostRun run in LostRun.Of(_review))
        {
            svg.Path(_ground.Swath(run.FromUtc, run.ToUtc).Select(Place), "across c-" + CauseWords.NameOf(run.Gap.Cause), closed: true, PageWords.Hint(run.Gap, run.Number));
        }

        svg.Path(_ground.Coast(reach).Select(Place).Select(Inside), "coast");
        svg.Path(_ground.Track(_review.FromUtc, _review.ToUtc).Select(Place), "under");
        svg.Path(_ground.Track(_review.FromUtc, _review.ToUtc).Select(Place), "sat");
        Scale(svg);
        Station(svg, settings.StationName);
        Numbers(svg);
        Minutes(svg);
        Names(svg);
        svg.Box(0.5, 0.5, Width - 1.0, Height - 1.0, "frame");
        return svg.ToString();
    }

    private string Words() => string.Create(
        CultureInfo.InvariantCulture,
        $"The satellite passes from {_review.FromUtc:HH:mm:ss} to {_review.ToUtc:HH:mm:ss} UTC. {_review.Lines.Lost} of {_review.Lines.Sent} lines are drawn as lost where they lie on the ground.");

    private void Graticule(Svg svg)
    {
        foreach ((_, (double X, double Y)?[] points, _) in Lines())
        {
            svg.Path(points, "grid");
        }
    }

    // The names of the grid's lines, where they come in over the left or the lower edge and nothing else stands.
    private void Names(Svg svg)
    {
        foreach ((string name, (double X, double Y)?[] points, bool parallel) in Lines())
        {
            double FromEdge((double X, double Y) p) => parallel ? p.X - 3.0 : Height - 4.0 - p.Y;
            for (int i = 1; i < points.Length; i++)
            {
                if (points[i - 1] is { } a && points[i] is { } b && (FromEdge(a) < 0.0) != (FromEdge(b) < 0.0))
                {
                    double share = FromEdge(a) / (FromEdge(a) - FromEdge(b));
                    (double x, double y) = (a.X + (share * (b.X - a.X)) + 3.0, a.Y + (share * (b.Y - a.Y)) - 2.0);
                    if (x is > 0.0 and < Width - 24.0 && y is > 12.0 and < Height && _room.Takes(x, y, name, "start"))
                    {
                        svg.Text(x, y, name, "t halo");
                    }

                    break;
                }
            }
        }
    }

    private IEnumerable<(string Name, (double X, double Y)?[] Points, bool Parallel)> Lines()
    {
        for (int latitude = -80; latitude <= 80; latitude += GridDegrees)
        {
            yield return (Words(latitude, 'N', 'S'), [.. Enumerable.Range(-90, 181).Select(k => Point(latitude, 2 * k))], true);
        }

        for (int longitude = -180; longitude < 180; longitude += GridDegrees)
        {
            yield return (Words(longitude, 'E', 'W'), [.. Enumerable.Range(-40, 81).Select(k => Point(2 * k, longitude))], false);
        }
    }

    private static string Words(int degrees, char positive, char negative) =>
        degrees == 0 ? "0°" : string.Create(CultureInfo.InvariantCulture, $"{Math.Abs(degrees)}°{(degrees > 0 ? positive : negative)}");

    // Each minute on the track, with its time at every second one.
    private void Minutes(Svg svg)
    {
        for (var at = new DateTimeOffset((_review.FromUtc.UtcTicks / TimeSpan.TicksPerMinute + 1) * TimeSpan.TicksPerMinute, TimeSpan.Zero); at < _review.ToUtc; at = at.AddMinutes(1))
        {
            if (Place(_ground.Seen(at, 0.0)) is { } p)
            {
                svg.Circle(p.X, p.Y, 1.8, "tick");
                if (at.Minute % 2 == 0 && _room.Takes(p.X + 5.0, p.Y + 4.0, "00:00", "start"))
                {
                    svg.Text(p.X + 5.0, p.Y + 4.0, at.ToString("HH:mm", CultureInfo.InvariantCulture), "t halo");
                }
            }
        }
    }

    private void Numbers(Svg svg)
    {
        foreach ((Gap gap, int number) in _review.Gaps.Select((g, i) => (g, i + 1)).OrderByDescending(g => g.g.Lines))
        {
            DateTimeOffset at = gap.FromUtc + ((gap.ToUtc - gap.FromUtc) / 2.0);
            if (Place(_ground.Seen(at, 1.0)) is { } edge && Place(_ground.Seen(at, 0.9)) is { } within)
            {
                double length = Math.Max(0.1, Math.Sqrt(Square(edge.X - within.X) + Square(edge.Y - within.Y)));
                (double X, double Y) p = (edge.X + (10.0 * (edge.X - within.X) / length), edge.Y + (10.0 * (edge.Y - within.Y) / length) + 4.0);
                string name = number.ToString(CultureInfo.InvariantCulture);
                if (_room.Takes(p.X, p.Y, name, "middle"))
                {
                    svg.Text(p.X, p.Y, name, "n halo", "middle");
                }
            }
        }
    }

    private void Station(Svg svg, string name)
    {
        if (Place((0.0, 0.0)) is { } here)
        {
            svg.Circle(here.X, here.Y, 4.0, "here");
            bool left = here.X > Width * 0.6;
            (double x, string anchor) = left ? (here.X - 8.0, "end") : (here.X + 8.0, "start");
            _ = _room.Takes(x, here.Y - 5.0, PageWords.Short(name), anchor);
            svg.Text(x, here.Y - 5.0, PageWords.Short(name), "t strong halo", anchor);
        }
    }

    private void Scale(Svg svg)
    {
        double[] lengths = [2000.0, 1000.0, 500.0, 200.0];
        double km = lengths.First(l => l * _unitsPerKm < Width / 3.0 || l <= 200.0);
        double right = Width - 12.0;
        svg.Line(right - (km * _unitsPerKm), Height - 12.0, right, Height - 12.0, "scale");
        _ = _room.Takes(right, Height - 12.0, "0000 km 0000 km", "end");
        svg.Text(right, Height - 17.0, string.Create(CultureInfo.InvariantCulture, $"{km:0} km"), "t halo", "end");
    }

    private static double Square(double x) => x * x;

    private (double X, double Y)? Point(int latitude, int longitude) => Inside(Place(_ground.Of(Angle.FromDegrees(latitude), Angle.FromDegrees(longitude))));

    // A margin around the picture stays, so that a line goes on to its edge.
    private static (double X, double Y)? Inside((double X, double Y)? p) => p is { X: > -60.0 and < Width + 60.0, Y: > -60.0 and < Height + 60.0 } ? p : null;

    private (double X, double Y)? Place((double East, double North)? p) => p is { } q
        ? ((Width / 2.0) + (_unitsPerKm * (q.East - _middle.East)), (Height / 2.0) - (_unitsPerKm * (q.North - _middle.North)))
        : null;
}
