using System.CommandLine;
using System.Globalization;
using Cockpit.Core.Formats;
using Cockpit.Core.Geo;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;

namespace Cockpit.Commands;

/// <summary>cockpit bearing: declination, sun, moon, shadow, for setting up the tripod.</summary>
public static class BearingCommand
{
    private static readonly OutputColumn[] Columns =
    [
        .. new[]
        {
            "utc", "latitude_deg", "longitude_deg", "declination_deg", "declination_uncertainty_deg", "declination_rate_deg_per_year",
            "sun_azimuth_deg", "sun_elevation_deg", "moon_azimuth_deg", "moon_elevation_deg", "shadow_azimuth_deg", "shadow_length_ratio",
            "true_azimuth_deg", "magnetic_bearing_deg", "warning",
        }.Select(name => new OutputColumn(name, null, 0)),
    ];

    /// <summary>The command.</summary>
    /// <param name="clock">Gives "now" where no instant was given.</param>
    public static Command Build(TimeProvider clock)
    {
        Option<Site?> station = CommonOptions.Station();
        Option<DateTimeOffset?> at = CommonOptions.At();
        Option<Angle?> trueAzimuth = CommonOptions.Value(
            "--true", "DEG", "A true azimuth whose magnetic bearing is wanted, like 194", (text, source) => AngleText.Read(text, source));
        Option<OutputFormat> format = CommonOptions.Format();
        var command = new Command(
            "bearing",
            """
            Find north and the sun: declination, magnetic bearings, the direction of a shadow.

            Examples:
              cockpit bearing --station 47.8,11.2,520
              cockpit bearing --station 47.8,11.2 --at 2026-11-26T08:56:28Z --true 194
              cockpit bearing --station 47.8,11.2 --format json
            """)
        {
            station, at, trueAzimuth, format,
        };
        command.SetAction(parsed =>
        {
            TextWriter output = parsed.InvocationConfiguration.Output;
            TextWriter error = parsed.InvocationConfiguration.Error;
            if (parsed.GetValue(station) is not { } site)
            {
                error.WriteLine("say where you stand: --station LAT,LON[,ALT_M], like --station 47.8,11.2,520");
                return CommandRoot.WrongInput;
            }

            var bearings = Bearings.At(site, parsed.GetValue(at) ?? clock.GetUtcNow());
            Angle? asked = parsed.GetValue(trueAzimuth);
            switch (parsed.GetValue(format))
            {
                case OutputFormat.Csv or OutputFormat.Json:
                    new OutputRows(output, parsed.GetValue(format), Columns).Alone(Cells(bearings, asked));
                    break;
                default:
                    WriteTable(output, bearings, asked);
                    break;
            }

            if (bearings.Field.Warning is { } warning)
            {
                error.WriteLine("warning: " + warning);
            }

            return 0;
        });
        return command;
    }

    private static Cell[] Cells(Bearings bearings, Angle? asked) =>
    [
        Cell.Of(bearings.Utc, 3), Cell.Of(bearings.Site.Latitude.Degrees, 7), Cell.Of(bearings.Site.Longitude.Degrees, 7),
        Cell.Of(bearings.Field.Declination.Degrees, 6), Cell.Of(bearings.Field.DeclinationUncertainty.Degrees, 6),
        Cell.Of(bearings.Field.DeclinationRate.Degrees, 6),
        Cell.Of(bearings.Sun.Azimuth.Degrees, 6), Cell.Of(bearings.Sun.Elevation.Degrees, 6),
        Cell.Of(bearings.Moon.Azimuth.Degrees, 6), Cell.Of(bearings.Moon.Elevation.Degrees, 6),
        Cell.Of(bearings.Shadow?.Degrees, 6), Cell.Of(bearings.ShadowLength, 4),
        Cell.Of(asked?.WrappedToTurn().Degrees, 6), Cell.Of(asked is { } azimuth ? bearings.Field.ToMagnetic(azimuth).Degrees : null, 6),
        Cell.Of(bearings.Field.Warning),
    ];

    private static void WriteTable(TextWriter output, Bearings bearings, Angle? asked)
    {
        void Line(string name, FormattableString text) => output.WriteLine($"{name,-12} {text.ToString(CultureInfo.InvariantCulture)}");
        string Compass(Angle azimuth) => FormattableString.Invariant($"{bearings.Field.ToMagnetic(azimuth).Degrees:0.0}° by compass");

        double declination = bearings.Field.Declination.Degrees;
        Line("time", $"{bearings.Utc.UtcDateTime:yyyy-MM-dd HH:mm:ss} UTC");
        Line("declination", $"{Math.Abs(declination):0.0}° {(declination < 0 ? "west" : "east")} ± {bearings.Field.DeclinationUncertainty.Degrees:0.0}°, World Magnetic Model 2025; true = compass {(declination < 0 ? "-" : "+")} {Math.Abs(declination):0.0}°");
        Line("sun", $"azimuth {bearings.Sun.Azimuth.Degrees:0.0}° true, {Compass(bearings.Sun.Azimuth)}, elevation {bearings.Sun.Elevation.Degrees:0.0}°");
        if (bearings is { Shadow: { } shadow, ShadowLength: { } length })
        {
            Line("shadow", $"points to {shadow.Degrees:0.0}° true, {Compass(shadow)}, {length:0.0} times as long as the stick");
        }
        else
        {
            Line("shadow", $"none to line up with: the sun is {(bearings.Sun.Elevation.Degrees < 2 ? "down or too low" : "too high")}");
        }

        Line("moon", $"azimuth {bearings.Moon.Azimuth.Degrees:0.0}° true, {Compass(bearings.Moon.Azimuth)}, elevation {bearings.Moon.Elevation.Degrees:0.0}°");
        if (asked is { } azimuth)
        {
            Line("bearing", $"{azimuth.WrappedToTurn().Degrees:0.0}° true is {Compass(azimuth)}");
        }

        foreach (string caution in bearings.Cautions)
        {
            output.WriteLine("caution: " + caution);
        }
    }
}
