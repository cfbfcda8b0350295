using System.Globalization;
using System.Text;

namespace Cockpit.Reports;

/// <summary>Writes one picture as SVG text; coordinates with one decimal, classes instead of colours.</summary>
/// <param name="width">Width of the drawing, its own units.</param>
/// <param name="height">Height of the drawing.</param>
/// <param name="title">What it shows, for those who cannot see it.</param>
internal sealed class Svg(double width, double height, string title)
{
    private readonly StringBuilder _text = new();

    /// <summary>Characters that mean something in HTML, made harmless.</summary>
    public static string Safe(string text) => text
        .Replace("&", "&amp;", StringComparison.Ordinal).Replace("<", "&lt;", StringComparison.Ordinal)
        .Replace(">", "&gt;", StringComparison.Ordinal).Replace("\"", "&quot;", StringComparison.Ordinal);

    public void Line(double x1, double y1, double x2, double y2, string kind) =>
        Add($"<line class=\"{kind}\" x1=\"{x1:0.0}\" y1=\"{y1:0.0}\" x2=\"{x2:0.0}\" y2=\"{y2:0.0}\"/>");

    public void Box(double x, double y, double w, double h, string kind, string? hint = null) => Add(
        hint is null
            ? (FormattableString)$"<rect class=\"{kind}\" x=\"{x:0.00}\" y=\"{y:0.0}\" width=\"{Math.Max(w, 0.0):0.00}\" height=\"{h:0.0}\"/>"
            : $"<rect class=\"{kind}\" x=\"{x:0.00}\" y=\"{y:0.0}\" width=\"{Math.Max(w, 0.0):0.00}\" height=\"{h:0.0}\"><title>{Safe(hint)}</title></rect>");

    public void Circle(double x, double y, double radius, string kind) => Add($"<circle class=\"{kind}\" cx=\"{x:0.0}\" cy=\"{y:0.0}\" r=\"{radius:0.0}\"/>");

    public void Text(double x, double y, string text, string kind = "t", string anchor = "start") =>
        Add($"<text class=\"{kind}\" x=\"{x:0.0}\" y=\"{y:0.0}\" text-anchor=\"{anchor}\">{Safe(text)}</text>");

    /// <summary>A line through points, broken where one is missing; closed shapes when asked.</summary>
    public void Path(IEnumerable<(double X, double Y)?> points, string kind, bool closed = false, string? hint = null)
    {
        var data = new StringBuilder();
        bool pen = false;
        foreach ((double X, double Y)? point in points)
        {
            if (point is { } p)
            {
                data.Append(CultureInfo.InvariantCulture, $"{(pen ? 'L' : 'M')}{p.X:0.0} {p.Y:0.0}");
            }

            pen = point is not null;
        }

        if (data.Length > 0)
        {
            string end = closed ? "Z" : "";
            Add(hint is null
                ? (FormattableString)$"<path class=\"{kind}\" d=\"{data}{end}\"/>"
                : $"<path class=\"{kind}\" d=\"{data}{end}\"><title>{Safe(hint)}</title></path>");
        }
    }

    public override string ToString() => string.Create(
        CultureInfo.InvariantCulture,
        $"<svg viewBox=\"0 0 {width:0} {height:0}\" role=\"img\" aria-label=\"{Safe(title)}\">\n<title>{Safe(title)}</title>\n{_text}</svg>\n");

    private void Add(FormattableString piece) => _text.Append(piece.ToString(CultureInfo.InvariantCulture)).Append('\n');
}
