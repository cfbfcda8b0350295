using System.Globalization;
using Cockpit.Core.Geo;
using Cockpit.Core.Units;

namespace Cockpit.Commands;

/// <summary>A skyline in lines of text: the whole horizon, five degrees a column, north at both ends.</summary>
/// <param name="signs">What it is drawn with.</param>
internal sealed class SkylineDrawing(DrawingSigns signs)
{
    private const int Columns = 72;
    private const int Rows = 6;
    private const double Margin = 5.0;

    /// <summary>The lines.</summary>
    /// <param name="mask">The skyline, azimuth true; null for none.</param>
    /// <param name="here">An azimuth to point at, true; null for none.</param>
    public IEnumerable<string> Lines(HorizonMask? mask, Angle? here = null)
    {
        double top = Math.Max(30.0, Math.Ceiling(((mask?.Points.Max(point => point.Elevation.Degrees) ?? 0.0) + Margin) / 10.0) * 10.0);
        double[] heights = [.. Enumerable.Range(0, Columns).Select(column => Height(mask, column) / top)];
        for (int row = 0; row < Rows; row++)
        {
            string scale = row == 0 ? string.Create(CultureInfo.InvariantCulture, $"{top,3:0}") : row == Rows - 1 ? "  0" : "   ";
            yield return $"{scale} {signs.Row(heights, row, Rows)}".TrimEnd();
        }

        yield return $"    {new string(signs.Line, Columns)}";
        yield return "    N        NE       E        SE       S        SW       W        NW     N";
        if (here is { } azimuth)
        {
            int column = (int)(azimuth.WrappedToTurn().Degrees / 360.0 * Columns);
            yield return $"    {new string(' ', Math.Min(column, Columns - 1))}{signs.Here}";
        }
    }

    private static double Height(HorizonMask? mask, int column) =>
        mask?.At(Angle.FromDegrees((column + 0.5) * 360.0 / Columns)).Degrees ?? 0.0;
}
