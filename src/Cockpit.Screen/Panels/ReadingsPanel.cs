using System.Globalization;
using Cockpit.Core.Aim;
using Cockpit.Screen.Themes;
using Cockpit.Session.State;

namespace Cockpit.Screen.Panels;

/// <summary>The numbers of the moment and the health of the parts, one a line.</summary>
internal static class ReadingsPanel
{
    public const int LeastWidth = 26;
    private const int LabelWidth = 9;

    public static Block Of(Snapshot now, int width, int height)
    {
        Canvas canvas = new(width, height);
        List<Row> rows = [.. Numbers(now)];
        int parts = Math.Max(0, height - rows.Count);
        rows.AddRange(PartsList.Of(now, width).Take(parts));
        for (int i = 0; i < rows.Count && i < height; i++)
        {
            canvas.Text(0, i, rows[i].Label, Role.Dim);
            canvas.Text(rows[i].Label.Length == 0 ? 0 : LabelWidth, i, Figures.Fit(rows[i].Value, width - (rows[i].Label.Length == 0 ? 0 : LabelWidth)).TrimEnd(), rows[i].Role);
        }

        return canvas.ToBlock();
    }

    private static IEnumerable<Row> Numbers(Snapshot now)
    {
        LookAngles? look = now.Sky?.Now;
        Pointing? dish = now.Aim.Dish;
        yield return new Row("", "         azimuth elevation", Role.Dim);
        yield return new Row("satellite", $"{Azimuth(look?.Azimuth.WrappedToTurn().Degrees)} {Elevation(look?.Elevation.Degrees)}", look is null ? Role.Stale : Role.Strong);
        if (now.Settings?.MagneticDeclination is { } declination)
        {
            yield return new Row("magnetic", Azimuth(look is { } seen ? (seen.Azimuth - declination).WrappedToTurn().Degrees : null), Role.Plain);
        }

        yield return new Row("dish", $"{Azimuth(dish?.Azimuth.WrappedToTurn().Degrees)} {Elevation(dish?.Elevation.Degrees)}", dish is null ? Role.Stale : Role.Strong);
        yield return new Row("known", dish is null ? "not yet" : $"±{Figures.Of(dish.Spread.Degrees, 4, 1)}° {Origin(dish.Origin)}", dish is null ? Role.Stale : Role.Plain);
        yield return new Row("peaked", now.Aim.SinceMark is { } since ? $"{Figures.Span(since)} ago" : "--:-- (not yet)", now.Aim.SinceMark is null ? Role.Stale : Role.Plain);
        yield return new Row("beam loss", $"{Figures.Of(now.Aim.PointingLoss?.Value, 5, 1)} dB", now.Aim.PointingLoss is null ? Role.Stale : Role.Plain);
        yield return new Row("Doppler", $"{Figures.Of(now.Link.Doppler?.Hertz / 1e3, 6, 1, signed: true)} kHz{Rate(now.Link)}", now.Link.Doppler is null ? Role.Stale : Role.Plain);
        yield return new Row("range", $"{Figures.Of(look?.RangeKm, 5, 0)} km", look is null ? Role.Stale : Role.Plain);
        yield return new Row("elements", Elements(now.Sky), now.Sky is null ? Role.Stale : Role.Plain);
    }

    private static string Azimuth(double? degrees) => "  " + Figures.Azimuth(degrees);

    private static string Elevation(double? degrees) => "    " + Figures.Of(degrees, 5, 1);

    private static string Rate(LinkNow link) => link.DopplerRateHzPerSec is { } rate ? $" {Figures.Of(rate, 4, 0, signed: true)}/s" : " ----/s";

    private static string Elements(SkyNow? sky)
    {
        if (sky is null)
        {
            return "--.- d old";
        }

        double days = sky.ElementAge.TotalDays;
        string age = days < 0 ? $"{Figures.Of(-days, 4, 1)} d ahead" : $"{Figures.Of(days, 4, 1)} d old";
        return string.Create(CultureInfo.InvariantCulture, $"{age} ±{sky.AlongTrackErrorKm:0} km");
    }

    private static string Origin(PointingOrigin origin) => origin switch
    {
        PointingOrigin.Plan => "by plan",
        PointingOrigin.Mark => "by mark",
        PointingOrigin.MarkAndNudges => "by nudges",
        PointingOrigin.Sensor => "by sensor",
        _ => "",
    };
}

/// <summary>One line of numbers.</summary>
/// <param name="Label">What it is; empty = the value fills the line.</param>
/// <param name="Value">The number with its unit.</param>
/// <param name="Role">What it means.</param>
internal readonly record struct Row(string Label, string Value, Role Role);
