using System.Globalization;
using Cockpit.Core.Aim;
using Cockpit.Core.Units;
using Cockpit.Screen.Themes;
using Cockpit.Session.State;

namespace Cockpit.Screen.Panels;

/// <summary>The view from behind the dish: the cross is the dish, moving the dish moves the cross to the symbols.</summary>
/// <remarks>Full scale is one beam width each way. What lies outside stands at the edge with its distance in degrees.</remarks>
internal static class PursuitPanel
{
    // Inside this part of a beam width the loss is below 0.6 dB and nothing is asked for.
    private const double OnZoneInBeams = 0.22;
    private const double HalfPowerInBeams = 0.5;
    private const double PanTold = 2.0;

    private static readonly char[] AheadGlyphs = ['•', '∙', '·'];

    public static Block Of(Snapshot now, int width, int height, bool sevenBit = false)
    {
        Canvas canvas = new(width, height, latestOnly: sevenBit);
        Box box = new(canvas, now.Aim.BeamWidth);
        Frame(canvas, now.Aim);
        if (now.Aim.Dish is not { } dish)
        {
            string[] lines = ["where the dish is", "is not known yet"];
            for (int i = 0; i < lines.Length; i++)
            {
                canvas.Text((width - lines[i].Length) / 2, (height / 2) - 1 + i, lines[i], Role.Stale);
            }

            return canvas.ToBlock();
        }

        Cross(canvas, box);
        if (now.Aim is { Error: { } seen, Region: { } region })
        {
            box.Region(seen, region, sevenBit);
        }

        for (int i = Math.Min(now.Sky?.Ahead.Length ?? 0, AheadGlyphs.Length) - 1; i >= 0; i--)
        {
            AimError ahead = AimErrors.Between(dish, now.Sky!.Ahead[i]);
            box.Mark(ahead, AheadGlyphs[i], Role.Track, pinned: false);
        }

        if (now.Sky?.Sun is { Now: { } sun } && sun.Elevation.Degrees > 0.0)
        {
            box.Mark(AimErrors.Between(dish, sun), SkyPanel.SunGlyph, Role.Caution, pinned: now.Sky.Sun.IsNear(now.Utc));
        }

        if (now.Aim.Nudge is { } nudge)
        {
            box.Mark(nudge, 'X', Role.AimPoint, pinned: true, PanOf(nudge, now.Aim.Mount));
        }

        if (now.Aim.Error is { } error)
        {
            box.Mark(error, 'O', Role.Satellite, pinned: true);
        }

        return canvas.ToBlock();
    }

    /// <summary>Near the zenith a small step on the sky is a large turn of the head: then the turn stands beside the symbol.</summary>
    private static string? PanOf(AimError nudge, Mount mount) =>
        mount == Mount.PanTilt && Math.Abs(nudge.Pan.Degrees) > PanTold * Math.Max(1.0, Math.Abs(nudge.Right.Degrees))
            ? string.Create(CultureInfo.InvariantCulture, $"pan {Math.Abs(nudge.Pan.Degrees):0}")
            : null;

    private static void Frame(Canvas canvas, AimNow aim)
    {
        int right = canvas.Width - 1;
        int bottom = canvas.Height - 1;
        string title = $" from behind the dish ±{Figures.Of(aim.BeamWidth.Degrees, 4, 1)}° ";
        if (title.Length > canvas.Width - 4)
        {
            title = $" from behind ±{Figures.Of(aim.BeamWidth.Degrees, 4, 1)}° ";
        }

        canvas.Text(0, 0, "┌" + new string('─', right - 1) + "┐", Role.Grid);
        canvas.Text(0, bottom, "└" + new string('─', right - 1) + "┘", Role.Grid);
        for (int row = 1; row < bottom; row++)
        {
            canvas.Glyph(0, row, '│', Role.Grid);
            canvas.Glyph(right, row, '│', Role.Grid);
        }

        canvas.Text(1, 0, title, Role.Dim);
        canvas.TextBefore(right, bottom, canvas.Width >= 40 ? " O satellite  X next aim  • 10 s ahead " : " O satellite  X aim ", Role.Dim);
    }

    private static void Cross(Canvas canvas, Box box)
    {
        for (int column = 1; column < canvas.Width - 1; column++)
        {
            if ((column - box.Column) % 2 == 0)
            {
                canvas.Dot(2 * column, (4 * box.Row) + 2, Role.Grid);
            }
        }

        for (int row = 1; row < canvas.Height - 1; row++)
        {
            canvas.Dot((2 * box.Column) + 1, (4 * row) + 2, Role.Grid);
        }

        canvas.Circle(box.DotX, box.DotY, HalfPowerInBeams * box.DotsPerBeam, Role.Grid, 4.0);
        canvas.Circle(box.DotX, box.DotY, OnZoneInBeams * box.DotsPerBeam, Role.Dish);
        canvas.Glyph(box.Column, box.Row, '┼', Role.Dish);
    }

    /// <summary>Where the angles land.</summary>
    private sealed class Box
    {
        private readonly Canvas _canvas;
        private readonly double _beamDegrees;

        public Box(Canvas canvas, Angle beam)
        {
            _canvas = canvas;
            _beamDegrees = beam.Degrees;
            Column = canvas.Width / 2;
            Row = canvas.Height / 2;
            DotX = (2 * Column) + 0.5;
            DotY = (4 * Row) + 1.5;
            DotsPerBeam = Math.Min(2.0 * (Math.Min(Column, canvas.Width - 1 - Column) - 1), 4.0 * (Math.Min(Row, canvas.Height - 1 - Row) - 1));
        }

        public int Column { get; }

        public int Row { get; }

        public double DotX { get; }

        public double DotY { get; }

        public double DotsPerBeam { get; }

        /// <summary>Dots across and down; right is right and up is up, seen from behind.</summary>
        public (double X, double Y) Dots(AimError error) =>
            (DotX + (error.Right.Degrees / _beamDegrees * DotsPerBeam), DotY - (error.Up.Degrees / _beamDegrees * DotsPerBeam));

        /// <summary>Where the satellite is with 50 % (dense) and 95 % (thin): the belief about the dish, seen the other way round. Letters are too coarse for both.</summary>
        public void Region(AimError satellite, BeliefRegion region, bool thinOnly)
        {
            (double x, double y) = Dots(satellite);
            Ellipse(x, y, region, region.R95, 6.0);
            if (!thinOnly)
            {
                Ellipse(x, y, region, region.R50, 3.0);
            }
        }

        private void Ellipse(double x, double y, BeliefRegion region, Angle radius, double pitch)
        {
            // The two axes have the proportion of the spread; their mean square is the radius that holds the share.
            double major = Math.Max(region.Major.Degrees, 1e-3);
            double minor = Math.Clamp(region.Minor.Degrees, 0.05 * major, major);
            double scale = radius.Degrees / Math.Sqrt(0.5 * ((major * major) + (minor * minor))) * DotsPerBeam / _beamDegrees;
            (double sinTilt, double cosTilt) = Math.SinCos(region.Tilt.Radians);
            int count = Math.Clamp((int)(Math.Tau * major * scale / pitch), 8, 400);
            for (int n = 0; n < count; n++)
            {
                (double sin, double cos) = Math.SinCos(Math.Tau * n / count);
                double along = major * scale * cos;
                double across = minor * scale * sin;
                double dotX = x + (along * cosTilt) - (across * sinTilt);
                double dotY = y - (along * sinTilt) - (across * cosTilt);
                if (dotX >= 2.0 && dotX < _canvas.DotWidth - 2.0 && dotY >= 4.0 && dotY < _canvas.DotHeight - 4.0)
                {
                    _canvas.Dot((int)Math.Round(dotX), (int)Math.Round(dotY), Role.Satellite);
                }
            }
        }

        public void Mark(AimError error, char glyph, Role role, bool pinned, string? label = null)
        {
            (double x, double y) = Dots(error);
            int column = Cell(x / 2.0);
            int row = Cell(y / 4.0);
            int atColumn = Math.Clamp(column, 1, _canvas.Width - 2);
            int atRow = Math.Clamp(row, 1, _canvas.Height - 2);
            bool outside = atColumn != column || atRow != row;
            if (outside && !pinned)
            {
                return;
            }

            _canvas.Glyph(atColumn, atRow, glyph, role);
            if (outside || label is not null)
            {
                string number = label ?? Math.Round(error.Total.Degrees, MidpointRounding.AwayFromZero).ToString("0", CultureInfo.InvariantCulture);
                _canvas.Text(atColumn > Column ? atColumn - number.Length : atColumn + 1, atRow, number, role);
            }
        }

        private static int Cell(double cells) => (int)Math.Floor(Math.Clamp(cells, -1e6, 1e6));
    }
}
