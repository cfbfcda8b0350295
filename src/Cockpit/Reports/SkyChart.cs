using Cockpit.Core.Geo;
using Cockpit.Core.Units;

namespace Cockpit.Reports;

/// <summary>Draws on the sky over the station: north up, east right, the zenith in the middle.</summary>
/// <param name="width">Width of the drawing.</param>
/// <param name="height">Height of the drawing.</param>
/// <param name="title">What it shows.</param>
/// <param name="description">What is to be seen in it.</param>
internal sealed class SkyChart(double width, double height, string title, string description)
{
    private const double Edge = 22.0;

    private readonly Svg _svg = new(width, height, title, description);
    private readonly PageRoom _room = new();
    private readonly double _radius = (Math.Min(width, height) / 2.0) - Edge;

    public void Rings()
    {
        foreach (double elevation in (double[])[0.0, 30.0, 60.0])
        {
            _svg.Circle(width / 2.0, height / 2.0, _radius * SkyView.RadiusOf(Angle.FromDegrees(elevation)), elevation > 0.0 ? "ring" : "ring strongring");
        }

        foreach ((string name, double x, double y) in ((string, double, double)[])[("N", 0, -1), ("E", 1, 0), ("S", 0, 1), ("W", -1, 0)])
        {
            _svg.Line(width / 2.0, height / 2.0, (width / 2.0) + (_radius * x), (height / 2.0) + (_radius * y), "grid");
            _svg.Text((width / 2.0) + ((_radius + 11.0) * x), (height / 2.0) + ((_radius + 11.0) * y) + 4.0, name, "t strong", "middle");
        }
    }

    /// <summary>What hides the sky, between the horizon and the skyline.</summary>
    public void Skyline(HorizonMask horizon)
    {
        IEnumerable<(double, double)?> Ring(Func<Angle, Angle> elevation) => Enumerable.Range(0, 181).Select(i => Angle.FromDegrees(2 * i % 360))
            .Select(azimuth => ((double, double)?)Place(azimuth, elevation(azimuth)));
        _svg.Area([Ring(_ => Angle.Zero), Ring(horizon.At)], "skyline");
    }

    /// <summary>A line through directions.</summary>
    public void Path(IEnumerable<(Angle Azimuth, Angle Elevation)> points, string kind) =>
        _svg.Path(points.Select(point => ((double, double)?)Place(point.Azimuth, point.Elevation)), kind);

    /// <summary>A circle of an angle around a direction; near the horizon the plot stretches it sideways, which is left out.</summary>
    public void Circle(Angle azimuth, Angle elevation, Angle radius, string kind)
    {
        (double x, double y) = Place(azimuth, elevation);
        _svg.Circle(x, y, _radius * radius.Degrees / 90.0, kind);
    }

    /// <summary>A point with its name beside it, where there is room.</summary>
    public void Mark(Angle azimuth, Angle elevation, double radius, string kind, string name)
    {
        (double x, double y) = Place(azimuth, elevation);
        _svg.Circle(x, y, radius, kind);
        Write(x, y + 4.0, radius + 4.0, name, "t strong halo");
    }

    /// <summary>A name at a direction, where there is room.</summary>
    public void Name(Angle azimuth, Angle elevation, string name)
    {
        (double x, double y) = Place(azimuth, elevation);
        if (_room.Takes(x, y + 4.0, name, "middle"))
        {
            _svg.Text(x, y + 4.0, name, "n halo", "middle");
        }
    }

    /// <summary>A line from the middle to the horizon with its name at the end.</summary>
    public void Ray(Angle azimuth, string kind, string name)
    {
        (double x, double y) = Place(azimuth, Angle.Zero);
        _svg.Line(width / 2.0, height / 2.0, x, y, kind);
        (double nearX, double nearY) = Place(azimuth, Angle.FromDegrees(12));
        Write(nearX, nearY, 5.0, name, "t strong halo");
    }

    /// <inheritdoc/>
    public override string ToString() => _svg.ToString();

    private void Write(double x, double y, double aside, string name, string kind)
    {
        string anchor = x > width / 2.0 ? "end" : "start";
        double at = x + (x > width / 2.0 ? -aside : aside);
        foreach (double lower in (double[])[0.0, 12.0, -12.0, 24.0])
        {
            if (_room.Takes(at, y + lower, name, anchor))
            {
                _svg.Text(at, y + lower, name, kind, anchor);
                return;
            }
        }
    }

    private (double X, double Y) Place(Angle azimuth, Angle elevation)
    {
        (double x, double y) = SkyView.Of(azimuth, elevation);
        return ((width / 2.0) + (_radius * x), (height / 2.0) - (_radius * y));
    }
}
