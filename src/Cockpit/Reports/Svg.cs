using System.Globalization;
using System.Text;

namespace Cockpit.Reports;

/// <summary>Writes one picture as SVG text; coordinates with one decimal, classes instead of colours.</summary>
internal sealed class Svg
{
    private readonly StringBuilder _text = new();
    private readonly double _width;
    private readonly double _height;
    private readonly string _class;
    private readonly string _title;
    private readonly string _description;

    /// <summary>An empty picture.</summary>
    /// <param name="width">Width of the drawing, its own units.</param>
    /// <param name="height">Height of the drawing.</param>
    /// <param name="title">What it shows, for those who cannot see it.</param>
    /// <param name="description">What is to be seen in it, in a sentence or two.</param>
    public Svg(double width, double height, string title, string description)
    {
        (_width, _height, _class, _title, _description) = (width, height, "both", title, description);
    }

    /// <summary>An empty chart for a wide or a narrow page.</summary>
    /// <param name="size">Which.</param>
    /// <param name="height">Height of the drawing.</param>
    /// <param name="title">What it shows.</param>
    /// <param name="description">What is to be seen in it.</param>
    public Svg(ChartSize size, double height, string title, string description)
        : this(size.Width, height, title, description) => _class = size.Class;

    /// <summary>Characters that mean something in HTML, made harmless.</summary>
    public static string Safe(string text) => text
        .Replace("&", "&amp;", StringComparison.Ordinal).Replace("<", "&lt;", StringComparison.Ordinal)
        .Replace(">", "&gt;", StringComparison.Ordinal).Replace("\"", "&quot;", StringComparison.Ordinal);

    public void Line(double x1, double y1, double x2, double y2, string kind) =>
        Add($"<line class=\"{kind}\" x1=\"{x1:0.0}\" y1=\"{y1:0.0}\" x2=\"{x2:0.0}\" y2=\"{y2:0.0}\"/>");

    public void Box(double x, double y, double w, double h, string kind, string? hint = null) => Add(
        hint is null
            ? (FormattableString)$"<rect class=\"{kind}\" x=\"{x:0.##}\" y=\"{y:0.#}\" width=\"{Math.Max(w, 0.0):0.##}\" height=\"{h:0.#}\"/>"
            : $"<rect class=\"{kind}\" x=\"{x:0.##}\" y=\"{y:0.#}\" width=\"{Math.Max(w, 0.0):0.##}\" height=\"{h:0.#}\"><title>{Safe(hint)}</title></rect>");

    public void Circle(double x, double y, double radius, string kind) => Add($"<circle class=\"{kind}\" cx=\"{x:0.#}\" cy=\"{y:0.#}\" r=\"{radius:0.#}\"/>");

    public void Text(double x, double y, string text, string kind = "t", string anchor = "start") =>
        Add($"<text class=\"{kind}\" x=\"{x:0.#}\" y=\"{y:0.#}\" text-anchor=\"{anchor}\">{Safe(text)}</text>");

    /// <summary>What is drawn until <see cref="EndGroup"/> belongs together.</summary>
    public void Group(string kind) => Add($"<g class=\"{kind}\">");

    public void EndGroup() => Add($"</g>");

    /// <summary>A line through points, broken where one is missing; closed shapes when asked.</summary>
    public void Path(IEnumerable<(double X, double Y)?> points, string kind, bool closed = false, string? hint = null)
    {
        var data = new StringBuilder();
        Trace(data, points);
        Shape(data, closed, kind, hint);
    }

    /// <summary>Closed shapes as one: what lies in an even number of them is outside.</summary>
    public void Area(IEnumerable<IEnumerable<(double X, double Y)?>> shapes, string kind)
    {
        var data = new StringBuilder();
        foreach (IEnumerable<(double X, double Y)?> shape in shapes)
        {
            Trace(data, shape);
            data.Append(data.Length > 0 ? "Z" : "");
        }

        Shape(data, closed: false, kind, hint: null);
    }

    public override string ToString() => string.Create(
        CultureInfo.InvariantCulture,
        $"<svg class=\"{_class}\" viewBox=\"0 0 {_width:0} {_height:0}\" role=\"img\" aria-label=\"{Safe(_title)}\">\n<title>{Safe(_title)}</title>\n<desc>{Safe(_description)}</desc>\n{_text}</svg>\n");

    // Points that fall on the last one are left out.
    private static void Trace(StringBuilder data, IEnumerable<(double X, double Y)?> points)
    {
        bool pen = false;
        (double, double) last = default;
        foreach ((double X, double Y)? point in points)
        {
            if (point is { } p)
            {
                (double, double) rounded = (Math.Round(p.X, 1), Math.Round(p.Y, 1));
                if (!pen || rounded != last)
                {
                    data.Append(CultureInfo.InvariantCulture, $"{(pen ? 'L' : 'M')}{rounded.Item1:0.#} {rounded.Item2:0.#}");
                }

                last = rounded;
            }

            pen = point is not null;
        }
    }

    private void Shape(StringBuilder data, bool closed, string kind, string? hint)
    {
        if (data.Length > 0)
        {
            string end = closed ? "Z" : "";
            Add(hint is null
                ? (FormattableString)$"<path class=\"{kind}\" d=\"{data}{end}\"/>"
                : $"<path class=\"{kind}\" d=\"{data}{end}\"><title>{Safe(hint)}</title></path>");
        }
    }

    private void Add(FormattableString piece) => _text.Append(piece.ToString(CultureInfo.InvariantCulture)).Append('\n');
}
