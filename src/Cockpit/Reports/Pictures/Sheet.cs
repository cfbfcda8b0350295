using System.Globalization;
using Cockpit.Session.Review;
using ScottPlot;
using ScottPlot.TickGenerators;

namespace Cockpit.Reports.Pictures;

/// <summary>One picture in the making: paper, ink and letters are chosen, names and axes are left.</summary>
internal static class Sheet
{
    public const int Width = 1600;
    public const float Letter = 13;
    private const double Scale = 2.0;
    private static readonly double[] Steps = [5, 10, 15, 30, 60, 120, 300, 600, 1200];

    public static readonly Color Ink = Color.FromHex("#16191d");
    public static readonly Color Soft = Color.FromHex("#535b66");
    public static readonly Color Faint = Color.FromHex("#d9dee4");
    public static readonly Color Line = Color.FromHex("#16508f");
    public static readonly Color Good = Color.FromHex("#cfe3d8");

    /// <summary>An empty one.</summary>
    public static Plot New(string title)
    {
        Letters.Use();
        var plot = new Plot { ScaleFactor = Scale };
        plot.FigureBackground.Color = Colors.White;
        plot.DataBackground.Color = Colors.White;
        plot.Font.Set(Letters.Name);
        plot.Axes.Color(Soft);
        plot.Grid.MajorLineColor = Faint;
        plot.Title(title, 15);
        plot.Axes.Title.Label.Bold = false;
        plot.Axes.Title.Label.ForeColor = Ink;
        foreach (IAxis axis in plot.Axes.GetAxes())
        {
            axis.TickLabelStyle.FontSize = Letter;
        }

        return plot;
    }

    /// <summary>The picture as PNG.</summary>
    public static byte[] Png(this Plot plot, int width, int height) => plot.GetImageBytes(width, height, ImageFormat.Png);

    /// <summary>The time axis of a review: seconds since its begin, told as UTC.</summary>
    public static void Times(this Plot plot, SessionReview review)
    {
        double length = Math.Max(1.0, Seconds(review, review.ToUtc));
        double step = Steps.FirstOrDefault(s => length / s <= 10.0, Steps[^1]);
        var day = new DateTimeOffset(review.FromUtc.UtcDateTime.Date, TimeSpan.Zero);
        double first = Math.Ceiling((review.FromUtc - day).TotalSeconds / step);
        DateTimeOffset[] ticks = [.. Enumerable.Range(0, (int)(length / step) + 2).Select(i => day.AddSeconds((first + i) * step)).Where(at => at <= review.ToUtc)];
        string[] names = [.. ticks.Select(at => at.ToString(step < 60.0 ? "HH:mm:ss" : "HH:mm", CultureInfo.InvariantCulture))];
        plot.Axes.Bottom.TickGenerator = new NumericManual([.. ticks.Select(at => Seconds(review, at))], names);
        plot.Axes.SetLimitsX(0.0, length);
        plot.XLabel("UTC", Letter);
    }

    /// <summary>A time on that axis.</summary>
    public static double Seconds(SessionReview review, DateTimeOffset utc) => (utc - review.FromUtc).TotalSeconds;

    /// <summary>The colour of a cause.</summary>
    public static Color Of(GapCause cause) => Color.FromHex(CauseInk.PaperOf(cause));

    /// <summary>A line through points; it breaks where one is missing.</summary>
    public static ScottPlot.Plottables.Scatter Draw(this Plot plot, IEnumerable<(double X, double Y)?> points, Color colour, float width, LinePattern? pattern = null)
    {
        (double X, double Y)[] known = [.. points.Select(p => p ?? (double.NaN, double.NaN))];
        var line = plot.Add.ScatterLine(known.Select(p => p.X).ToArray(), known.Select(p => p.Y).ToArray(), colour);
        line.LineWidth = width;
        line.LinePattern = pattern ?? LinePattern.Solid;
        return line;
    }

    /// <summary>A filled shape.</summary>
    public static void Fill(this Plot plot, IEnumerable<(double X, double Y)?> points, Color colour, Color? edge = null)
    {
        Coordinates[] corners = [.. points.OfType<(double X, double Y)>().Select(p => new Coordinates(p.X, p.Y))];
        if (corners.Length > 2)
        {
            var shape = plot.Add.Polygon(corners);
            shape.FillColor = colour;
            shape.LineColor = edge ?? colour;
            shape.LineWidth = edge is null ? 0.5f : 1f;
        }
    }

    /// <summary>Words at a place.</summary>
    public static void Write(this Plot plot, string words, double x, double y, Alignment where, Color? colour = null, float offsetX = 0, float offsetY = 0)
    {
        var text = plot.Add.Text(words, x, y);
        text.LabelFontName = Letters.Name;
        text.LabelFontSize = 12;
        text.LabelFontColor = colour ?? Ink;
        text.LabelAlignment = where;
        (text.OffsetX, text.OffsetY) = (offsetX, offsetY);
    }

    /// <summary>A chart without axes whose units are the same in both directions.</summary>
    public static void Plain(this Plot plot, double left, double right, double bottom, double top)
    {
        plot.HideAxesAndGrid();
        plot.Axes.Title.IsVisible = true;
        plot.Axes.SetLimits(left, right, bottom, top);
        plot.Axes.SquareUnits();
    }

    /// <summary>The names of the causes, and of what else is drawn, below it.</summary>
    public static void Causes(this Plot plot, SessionReview review)
    {
        foreach (GapCause cause in review.Gaps.GroupBy(g => g.Cause).OrderByDescending(g => g.Sum(gap => gap.Lines)).Select(g => g.Key))
        {
            plot.Legend.ManualItems.Add(new LegendItem { LabelText = CauseWords.NameOf(cause), LineColor = Of(cause), LineWidth = 6 });
        }

        plot.Keys();
    }

    /// <summary>The names of what is drawn, below it.</summary>
    public static void Keys(this Plot plot)
    {
        plot.Legend.FontSize = 12;
        plot.Legend.FontName = Letters.Name;
        plot.Legend.OutlineWidth = 0;
        plot.Legend.ShadowColor = Colors.Transparent;
        plot.Legend.Orientation = Orientation.Horizontal;
        plot.ShowLegend(Edge.Bottom);
    }
}
