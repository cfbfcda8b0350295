using System.Globalization;
using Cockpit.Session.Review;

namespace Cockpit.Reports;

/// <summary>The charts of the comparison of passes.</summary>
internal static class ProgressCharts
{
    private const double Top = 10.0;
    private const double Bottom = 160.0;
    private const double RightAngle = 90.0;
    private static readonly double[] Steps = [0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0];

    /// <summary>One figure, a point a pass in order of time, evenly apart: the trend is told by the pass.</summary>
    public static string OverPasses(Progress progress, ProgressFigure figure, ChartSize size)
    {
        Axis axis = Axis.Of([.. figure.Points.Select(p => p.Value), figure.Mean - figure.Deviation, figure.Mean + figure.Deviation], string.Equals(figure.Unit, "%", StringComparison.Ordinal));
        var svg = new Svg(size, Bottom + 22.0, Text($"{figure.Name} of {figure.Points.Length} passes"), Text($"Mean {figure.Mean:0.00} {figure.Unit}, standard deviation {figure.Deviation:0.00}. ") + ProgressSummary.Change(figure) + ".");
        double X(int i) => size.Left + ((size.Right - size.Left) * (i + 0.5) / figure.Points.Length);
        axis.Draw(svg, size);
        Dates(svg, figure, size, X);
        if (figure.Points.Length > 1)
        {
            svg.Box(size.Left, axis.Y(figure.Mean + figure.Deviation), size.Right - size.Left, axis.Y(figure.Mean - figure.Deviation) - axis.Y(figure.Mean + figure.Deviation), "band");
        }

        if (figure.Trend is { IsCarried: true } trend)
        {
            double half = (figure.Points.Length - 1) / 2.0;
            svg.Line(X(0), axis.Y(figure.Mean - (trend.Slope * half)), X(figure.Points.Length - 1), axis.Y(figure.Mean + (trend.Slope * half)), "reach");
        }

        for (int i = 0; i < figure.Points.Length; i++)
        {
            string kind = progress.Passes.FirstOrDefault(p => p.FromUtc == figure.Points[i].Utc)?.Kind ?? "";
            svg.Circle(X(i), axis.Y(figure.Points[i].Value), figure.Points.Length > 80 ? 2.0 : 3.2, string.Equals(kind, "live", StringComparison.Ordinal) ? "dot" : "hollow");
        }

        return svg.ToString();
    }

    /// <summary>Share of the lines against how high the pass went.</summary>
    public static string ByTop(Progress progress, ChartSize size)
    {
        if (progress.Passes.IsEmpty)
        {
            return "";
        }

        Axis axis = Axis.Of([.. progress.Passes.Select(p => p.SharePercent)], percent: true);
        string words = string.Join("; ", progress.ByTop.Select(g => Text($"{g.Name}: {g.Mean:0.0} % in {g.Passes}")));
        var svg = new Svg(size, Bottom + 22.0, "Share of the lines against the highest elevation of the pass", words + ".");
        double X(double degrees) => size.Left + ((size.Right - size.Left) * degrees / RightAngle);
        axis.Draw(svg, size);
        for (double degrees = 0.0; degrees <= RightAngle; degrees += 15.0)
        {
            svg.Line(X(degrees), Top, X(degrees), Bottom + 3.0, "grid");
            svg.Text(X(degrees), Bottom + 15.0, Text($"{degrees:0}°"), "t", degrees >= RightAngle ? "end" : "middle");
        }

        foreach (ProgressPass pass in progress.Passes)
        {
            svg.Circle(X(pass.TopDegrees), axis.Y(pass.SharePercent), progress.Passes.Length > 80 ? 2.0 : 3.2, string.Equals(pass.Kind, "live", StringComparison.Ordinal) ? "dot" : "hollow");
        }

        foreach (ProgressGroup group in progress.ByTop)
        {
            (_, double from, double to) = Progress.Bands.First(b => string.Equals(b.Name, group.Name, StringComparison.Ordinal));
            to = Math.Min(to, RightAngle);
            double middle = X((from + to) / 2.0);
            double deviation = group.Deviation ?? 0.0;
            svg.Line(X(from) + 6.0, axis.Y(group.Mean), X(to) - 6.0, axis.Y(group.Mean), "mean");
            svg.Line(middle, axis.Y(group.Mean + deviation), middle, axis.Y(group.Mean - deviation), "mean");
        }

        return svg.ToString();
    }

    private static void Dates(Svg svg, ProgressFigure figure, ChartSize size, Func<int, double> x)
    {
        var room = new PageRoom();
        for (int i = 0; i < figure.Points.Length; i++)
        {
            string date = figure.Points[i].Utc.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
            double at = Math.Clamp(x(i), size.Left + 30.0, size.Right - 30.0);
            if ((i == 0 || figure.Points[i].Utc.Date != figure.Points[i - 1].Utc.Date) && room.Takes(at, 0.0, date + "  ", "middle"))
            {
                svg.Line(x(i), Bottom, x(i), Bottom + 3.0, "axis");
                svg.Text(at, Bottom + 15.0, date, "t", "middle");
            }
        }
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);

    private readonly record struct Axis(double Low, double High, double Step)
    {
        public static Axis Of(double[] values, bool percent)
        {
            double low = values.Min();
            double span = Math.Max(values.Max() - low, percent ? 5.0 : 0.1);
            double step = Steps.FirstOrDefault(s => span / s <= 5.0, 50.0);
            double high = Math.Ceiling((low + span) / step) * step;
            return new Axis(Math.Max(percent ? 0.0 : double.MinValue, Math.Floor(low / step) * step), percent ? Math.Min(high, 100.0) : high, step);
        }

        public double Y(double value) => Bottom - ((Bottom - Top) * (Math.Clamp(value, Low, High) - Low) / (High - Low));

        public void Draw(Svg svg, ChartSize size)
        {
            string form = Step < 0.1 ? "0.00" : Step < 1.0 ? "0.0" : "0";
            for (int i = 0; Low + (i * Step) <= High + (Step * 1e-6); i++)
            {
                double value = Low + (i * Step);
                svg.Line(size.Left, Y(value), size.Right, Y(value), "grid");
                svg.Text(size.Left - 5.0, Y(value) + 4.0, value.ToString(form, CultureInfo.InvariantCulture), "t", "end");
            }

            svg.Line(size.Left, Bottom, size.Right, Bottom, "axis");
        }
    }
}
