using System.Collections.Immutable;
using Cockpit.Core.Aim;
using Cockpit.Core.Passes;
using Cockpit.Screen.Themes;
using Cockpit.Session.State;

namespace Cockpit.Screen.Panels;

/// <summary>The sky from above, north up and east right: horizon outside, zenith in the middle, elevation linear.</summary>
internal static class SkyPanel
{
    /// <summary>The sun, in both views.</summary>
    public const char SunGlyph = '☼';

    private const double OutsideDots = 4.0;
    private const int FineEnough = 18;

    public static Block Of(Snapshot now, int width, int height, bool sevenBit = false)
    {
        Canvas canvas = new(width, height, latestOnly: sevenBit);
        Disc disc = new((canvas.DotWidth - 1) / 2.0, (canvas.DotHeight - 1) / 2.0, (Math.Min(canvas.DotWidth, canvas.DotHeight) / 2.0) - 1.0);
        Letters(canvas, disc, height >= FineEnough);
        Rings(canvas, disc);
        if (now.Sky is { } sky)
        {
            Track(canvas, disc, sky.Track, now.Utc);
        }

        if (now.Sky?.Sun?.Now is { } sun && sun.Elevation.Degrees > 0.0)
        {
            (int x, int y) = disc.At(sun.Azimuth.Radians, sun.Elevation.Degrees);
            canvas.Glyph(x / 2, y / 4, SunGlyph, Role.Caution);
        }

        if (now.Aim.Dish is { } dish)
        {
            Dish(canvas, disc, dish);
        }

        if (now.Sky?.Now is { } look && look.Elevation.Degrees > -2.0)
        {
            (int x, int y) = disc.At(look.Azimuth.Radians, look.Elevation.Degrees);
            canvas.Glyph(x / 2, y / 4, 'O', Role.Satellite);
        }

        canvas.Text(0, 0, "SKY", Role.Dim);
        return canvas.ToBlock();
    }

    private static void Rings(Canvas canvas, Disc disc)
    {
        canvas.Circle(disc.X, disc.Y, disc.Radius, Role.Grid, 2.0);
        canvas.Circle(disc.X, disc.Y, disc.Radius * 2.0 / 3.0, Role.Grid, 4.0);
        canvas.Circle(disc.X, disc.Y, disc.Radius / 3.0, Role.Grid, 4.0);
        canvas.Dot((int)disc.X, (int)disc.Y, Role.Grid);
    }

    private static void Letters(Canvas canvas, Disc disc, bool fine)
    {
        foreach ((char letter, double azimuth) in new[] { ('N', 0.0), ('E', 90.0), ('S', 180.0), ('W', 270.0) })
        {
            (int x, int y) = disc.At(azimuth * Math.PI / 180.0, 0.0);
            canvas.Glyph(x / 2, y / 4, letter, Role.Plain);
        }

        if (fine)
        {
            foreach (int elevation in new[] { 30, 60 })
            {
                (int x, int y) = disc.At(Math.PI, elevation);
                canvas.Text(x / 2, y / 4, Figures.Of(elevation, 2, 0), Role.Dim);
            }
        }
    }

    private static void Track(Canvas canvas, Disc disc, ImmutableArray<PassMoment> track, DateTimeOffset utc)
    {
        if (track.IsDefaultOrEmpty)
        {
            return;
        }

        (int X, int Y)[] points = [.. track.Select(moment => disc.At(moment.Look.Azimuth.Radians, Math.Max(moment.Look.Elevation.Degrees, 0.0)))];
        for (int i = 1; i < points.Length; i++)
        {
            bool past = track[i].Utc <= utc;
            canvas.Line(points[i - 1].X, points[i - 1].Y, points[i].X, points[i].Y, past ? Role.TrackPast : Role.Track, past ? 3 : 1);
        }

        Outside(canvas, disc, track[0].Look.Azimuth.Radians, 'A');
        int before = Math.Max(0, points.Length - 1 - Math.Max(1, points.Length / 5));
        canvas.Glyph(points[^1].X / 2, points[^1].Y / 4, Heading(points[before], points[^1]), Role.Track);
    }

    /// <summary>The letter of the start stands outside the horizon, so that it does not cover dish and satellite while they are low.</summary>
    private static void Outside(Canvas canvas, Disc disc, double azimuth, char letter)
    {
        (double sin, double cos) = Math.SinCos(azimuth);
        double radius = disc.Radius + OutsideDots;
        int column = Math.Clamp((int)Math.Round((disc.X + (radius * sin)) / 2.0), 0, canvas.Width - 1);
        int row = Math.Clamp((int)Math.Round((disc.Y - (radius * cos)) / 4.0), 0, canvas.Height - 1);
        canvas.Glyph(column, row, letter, Role.TrackPast);
    }

    private static char Heading((int X, int Y) from, (int X, int Y) to)
    {
        int right = to.X - from.X;
        int down = to.Y - from.Y;
        return Math.Abs(right) >= Math.Abs(down) ? (right < 0 ? Arrows.Left : Arrows.Right) : (down < 0 ? Arrows.Up : Arrows.Down);
    }

    private static void Dish(Canvas canvas, Disc disc, Pointing dish)
    {
        (int x, int y) = disc.At(dish.Azimuth.Radians, dish.Elevation.Degrees);
        double spread = dish.Spread.Degrees / 90.0 * disc.Radius;
        if (spread >= 2.0)
        {
            canvas.Circle(x, y, Math.Min(spread, disc.Radius), Role.Dish, 2.0);
        }

        canvas.Glyph(x / 2, y / 4, '+', Role.Dish);
    }

    private readonly record struct Disc(double X, double Y, double Radius)
    {
        public (int X, int Y) At(double azimuthRadians, double elevationDegrees)
        {
            double r = Radius * (90.0 - elevationDegrees) / 90.0;
            (double sin, double cos) = Math.SinCos(azimuthRadians);
            return ((int)Math.Round(X + (r * sin)), (int)Math.Round(Y - (r * cos)));
        }
    }
}
