using System.Globalization;
using Cockpit.Core.Aim;
using Cockpit.Core.Sensing;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;
using Cockpit.Screen.Themes;
using Cockpit.Session.State;

namespace Cockpit.Screen.Panels;

/// <summary>The numbers of the moment and the health of the parts, one a line.</summary>
internal static class ReadingsPanel
{
    public const int LeastWidth = 28;
    private const int LabelWidth = 9;
    private const int NumberWidth = 7;
    private const int LeastParts = 2;
    private const int RoomForWords = 38;
    private const double OrbitalKmPerSec = 7.4;
    private static readonly string[] Spare = ["range", "peaked"];

    public static Block Of(Snapshot now, int width, int height)
    {
        Canvas canvas = new(width, height);
        List<Row> rows = [.. Numbers(now, width)];
        MakeRoom(rows, height - LeastParts);
        int parts = Math.Max(0, height - rows.Count);
        rows.AddRange(PartsList.Of(now, width).Take(parts));
        rows.AddRange(OutlookRows.Of(now, Math.Max(0, height - rows.Count)));
        for (int i = 0; i < rows.Count && i < height; i++)
        {
            canvas.Text(0, i, rows[i].Label, Role.Dim);
            canvas.Text(rows[i].Label.Length == 0 ? 0 : LabelWidth, i, Figures.Fit(rows[i].Value, width - (rows[i].Label.Length == 0 ? 0 : LabelWidth)).TrimEnd(), rows[i].Role);
        }

        return canvas.ToBlock();
    }

    /// <summary>What steers least goes first where rows are few.</summary>
    private static void MakeRoom(List<Row> rows, int height)
    {
        foreach (string spare in Spare)
        {
            if (rows.Count > height)
            {
                rows.RemoveAll(row => string.Equals(row.Label, spare, StringComparison.Ordinal));
            }
        }
    }

    private static IEnumerable<Row> Numbers(Snapshot now, int width)
    {
        LookAngles? look = now.Sky?.Now;
        Pointing? dish = now.Aim.Dish;
        yield return new Row("", "         azimuth elevation", Role.Dim);
        yield return new Row("satellite", Direction(look?.Azimuth, look?.Elevation), look is null ? Role.Stale : Role.Strong);
        if (now.Settings?.MagneticDeclination is { } declination)
        {
            yield return new Row("magnetic", Figures.Azimuth((look?.Azimuth - declination)?.WrappedToTurn().Degrees).PadLeft(NumberWidth), Role.Plain);
        }

        if (now.Desk.Head is { } head)
        {
            yield return new Row("scales", Direction(head.Azimuth, head.Elevation), Role.Strong);
        }

        yield return new Row("dish", Direction(dish?.Azimuth, dish?.Elevation), dish is null ? Role.Stale : Role.Strong);
        if (now.Sensor is { } sensor)
        {
            yield return new Row("sensor", $"{Direction(sensor.Azimuth, sensor.Elevation)}{(width >= RoomForWords ? Pace(sensor) : "")}", sensor.IsFresh ? Role.Plain : Role.Stale);
            yield return new Row("it is off", Off(sensor), sensor.Bias is null ? Role.Stale : Role.Plain);
        }

        yield return new Row("aim sure", $"{Figures.Of(dish?.Spread.Degrees, NumberWidth, 1)}° {(dish is null ? "not yet" : Origin(dish.Origin))}", dish is null ? Role.Stale : Role.Plain);
        yield return new Row("peaked", now.Aim.SinceMark is { } since ? $"{Figures.Span(since),NumberWidth} ago" : "  --:-- not yet", now.Aim.SinceMark is null ? Role.Stale : Role.Plain);
        yield return new Row("off-aim", $"{Figures.Of(now.Aim.PointingLoss?.Value, NumberWidth, 1)} dB", now.Aim.PointingLoss is null ? Role.Stale : Role.Plain);
        yield return new Row("Doppler", $"{Figures.Of(now.Link.Doppler?.Hertz / 1e3, NumberWidth, 1, signed: true)} kHz{Rate(now.Link)}", now.Link.Doppler is null ? Role.Stale : Role.Plain);
        if (now.Link.TuneTo is { } tune)
        {
            yield return new Row("tune to", string.Create(CultureInfo.InvariantCulture, $"{tune.Megahertz,9:0.0000} MHz"), Role.Strong);
        }

        foreach (Row row in Carrier(now.Link.Carrier, width))
        {
            yield return row;
        }

        yield return new Row("range", $"{Figures.Of(look?.RangeKm, NumberWidth, 0)} km", look is null ? Role.Stale : Role.Plain);
        yield return new Row("elements", Elements(now.Sky), now.Sky is null ? Role.Stale : Role.Plain);
    }

    private static string Direction(Angle? azimuth, Angle? elevation) =>
        $"{Figures.Azimuth(azimuth?.WrappedToTurn().Degrees),NumberWidth}{Figures.Of(elevation?.Degrees, 10, 1)}";

    /// <summary>How often it comes, or how old it is.</summary>
    private static string Pace(SensorNow sensor) => sensor.IsFresh
        ? string.Create(CultureInfo.InvariantCulture, $" {sensor.PerSecond:0}/s")
        : string.Create(CultureInfo.InvariantCulture, $" {sensor.Age.TotalSeconds:0} s old");

    /// <summary>How far it is off and how well that is known; one word where it is not used at all.</summary>
    private static string Off(SensorNow sensor) => sensor.State switch
    {
        SensorState.Asleep => "  asleep",
        SensorState.Off => "  off the dish",
        _ => string.Create(CultureInfo.InvariantCulture, $"{(sensor.Bias is { } bias ? $"{Figures.Of(bias.Degrees, NumberWidth, 1, signed: true)}°" : "   --.-°")} ±{sensor.Doubt.Degrees:0.0}"),
    };

    private static string Rate(LinkNow link) => link.DopplerRateHzPerSec is { } rate ? $" {Figures.Of(rate, 4, 0, signed: true)}/s" : " ---/s";

    /// <summary>Measured minus predicted Doppler, and the slip that explains it.</summary>
    private static IEnumerable<Row> Carrier(CarrierNow? carrier, int width)
    {
        if (carrier is null)
        {
            yield break;
        }

        string of = width >= RoomForWords ? "off the predicted" : "off";
        yield return new Row("carrier", $"{Figures.Of(carrier.DifferenceHz / 1e3, NumberWidth, 2, signed: true)} kHz {of}", carrier.DifferenceHz is null ? Role.Stale : Role.Plain);
        if (carrier.Slip is { } slip)
        {
            string way = slip.Seconds < 0 ? "late" : "early";
            yield return new Row(
                "slip", string.Create(CultureInfo.InvariantCulture, $"{Math.Abs(slip.Seconds),NumberWidth:0.0} s {way} ±{slip.Sd:0.0}"), slip.IsWrong ? Role.Caution : Role.Plain);
        }
    }

    private static string Elements(SkyNow? sky)
    {
        if (sky is null)
        {
            return "   --.- d old";
        }

        double days = sky.ElementAge.TotalDays;
        string age = days < 0 ? $"{Figures.Of(-days, NumberWidth, 1)} d ahead" : $"{Figures.Of(days, NumberWidth, 1)} d old";

        // Satellites that send pictures go 7.4 km/s (circular orbit at 830 km, from memory); what is early or late by that is along the track.
        return string.Create(CultureInfo.InvariantCulture, $"{age} ±{sky.AlongTrackErrorKm / OrbitalKmPerSec:0.0} s");
    }

    private static string Origin(PointingOrigin origin) => origin switch
    {
        PointingOrigin.Plan => "by plan",
        PointingOrigin.Mark => "by mark",
        PointingOrigin.MarkAndNudges => "by nudges",
        PointingOrigin.Sensor => "by sensor",
        PointingOrigin.Level => "by level",
        _ => "",
    };
}

/// <summary>One line of numbers.</summary>
/// <param name="Label">What it is; empty = the value fills the line.</param>
/// <param name="Value">The number with its unit.</param>
/// <param name="Role">What it means.</param>
internal readonly record struct Row(string Label, string Value, Role Role);
