using Cockpit.Core.Geo;
using Cockpit.Core.Orbit;
using Cockpit.Core.Orbit.Theory;
using Cockpit.Core.Time;
using Cockpit.Core.Units;
using Cockpit.Session.Events;
using Cockpit.Session.Review;

namespace Cockpit.Reports;

/// <summary>The ground that the instrument saw: track, swath, and the lost lines where they lie.</summary>
/// <remarks>Azimuthal equidistant about the station, on a sphere: distances from the station are true to the scale, 0.3 % aside.</remarks>
internal sealed class PageMap
{
    private const double Size = 560.0;
    private const double Margin = 6.0;
    private const double EarthKm = 6371.0;
    private const double EdgeKm = 3600.0;
    private const double StepSeconds = 5.0;

    private readonly Site _station;
    private readonly Sgp4 _satellite;
    private readonly Angle _halfAngle;

    private PageMap(Site station, Sgp4 satellite, Angle halfAngle)
    {
        _station = station;
        _satellite = satellite;
        _halfAngle = halfAngle;
    }

    /// <summary>The map; a sentence in its place where the elements give none.</summary>
    /// <param name="review">The review.</param>
    /// <param name="settings">Station and elements.</param>
    /// <param name="halfAngle">The scan to either side of the vertical.</param>
    public static string Of(SessionReview review, SessionSettings settings, Angle halfAngle) =>
        settings.Elements is { } elements && Sgp4.Validate(elements) is null
            ? new PageMap(settings.Station, new Sgp4(elements), halfAngle).Draw(review)
            : "<p>The session holds no elements that a map could be drawn from.</p>\n";

    private string Draw(SessionReview review)
    {
        var svg = new Svg(Size, Size, "Map: ground track and swath, lost lines across it, coastlines");
        svg.Box(0.5, 0.5, Size - 1.0, Size - 1.0, "sea");
        Graticule(svg);
        foreach (var coast in Coastlines.All)
        {
            svg.Path(coast.Select(p => Place(p.Latitude, p.Longitude)), "coast");
        }

        DateTimeOffset[] times = [.. Times(review.FromUtc, review.ToUtc)];
        svg.Path(Edge(times, -_halfAngle).Concat(Edge(times, _halfAngle).Reverse()).Where(p => p is not null), "swath", closed: true);
        foreach (Gap gap in review.Gaps)
        {
            DateTimeOffset[] part = [.. Times(gap.FromUtc, gap.ToUtc)];
            svg.Path(
                Edge(part, -_halfAngle).Concat(Edge(part, _halfAngle).Reverse()).Where(p => p is not null),
                "lost c-" + CauseWords.NameOf(gap.Cause),
                closed: true,
                PageWords.Hint(gap));
        }

        svg.Path(Edge(times, Angle.Zero), "sat");
        svg.Circle(Size / 2.0, Size / 2.0, 4.0, "here");
        double scale = ((Size / 2.0) - Margin) / EdgeKm * 1000.0;
        svg.Line(16.0, Size - 14.0, 16.0 + scale, Size - 14.0, "scale");
        svg.Text(16.0, Size - 20.0, "1000 km");
        return svg.ToString();
    }

    private void Graticule(Svg svg)
    {
        for (int latitude = -80; latitude <= 80; latitude += 10)
        {
            svg.Path(Enumerable.Range(-90, 181).Select(k => Place(Angle.FromDegrees(latitude), Angle.FromDegrees(2 * k))), "grid");
        }

        for (int longitude = -180; longitude < 180; longitude += 10)
        {
            svg.Path(Enumerable.Range(-40, 81).Select(k => Place(Angle.FromDegrees(2 * k), Angle.FromDegrees(longitude))), "grid");
        }
    }

    private static IEnumerable<DateTimeOffset> Times(DateTimeOffset from, DateTimeOffset to)
    {
        for (DateTimeOffset at = from; at < to; at = at.AddSeconds(StepSeconds))
        {
            yield return at;
        }

        yield return to;
    }

    private IEnumerable<(double X, double Y)?> Edge(DateTimeOffset[] times, Angle scan) => times.Select(utc =>
    {
        var moment = JulianDate.FromUtc(utc);
        return _satellite.Propagate(moment.MinutesSince(_satellite.Elements.Epoch), out TemeState teme) == PropagationStatus.Good
            && new ScanLine(EcefState.FromTeme(teme, SiderealTime.Greenwich(moment))).At(scan) is { } ground
                ? Place(ground.Latitude, ground.Longitude, beyond: true)
                : null;
    });

    // Null outside the map; with "beyond" the place is kept, and the picture's edge cuts it.
    private (double X, double Y)? Place(Angle latitude, Angle longitude, bool beyond = false)
    {
        Angle turn = longitude - _station.Longitude;
        double cosine = (_station.Latitude.Sin() * latitude.Sin()) + (_station.Latitude.Cos() * latitude.Cos() * turn.Cos());
        double km = EarthKm * Math.Acos(Math.Clamp(cosine, -1.0, 1.0));
        if (km > EdgeKm * 1.45 && !beyond)
        {
            return null;
        }

        double east = latitude.Cos() * turn.Sin();
        double north = (_station.Latitude.Cos() * latitude.Sin()) - (_station.Latitude.Sin() * latitude.Cos() * turn.Cos());
        double length = Math.Sqrt((east * east) + (north * north));
        double r = ((Size / 2.0) - Margin) * km / EdgeKm;
        return length > 0.0 ? ((Size / 2.0) + (r * east / length), (Size / 2.0) - (r * north / length)) : (Size / 2.0, Size / 2.0);
    }
}
