using System.CommandLine;
using System.Globalization;
using Cockpit.Core.Formats;
using Cockpit.Core.Formats.Options;
using Cockpit.Core.Geo;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;

namespace Cockpit.Commands;

/// <summary>cockpit bearing: declination, sun, shadow, moon, pole star, landmark, for setting up the tripod.</summary>
public static class BearingCommand
{
    private static readonly OutputColumn[] Columns =
    [
        .. new[]
        {
            "utc", "latitude_deg", "longitude_deg", "declination_deg", "declination_uncertainty_deg", "declination_rate_deg_per_year",
            "sun_azimuth_deg", "sun_elevation_deg", "moon_azimuth_deg", "moon_elevation_deg", "shadow_azimuth_deg", "shadow_length_ratio",
            "true_azimuth_deg", "magnetic_bearing_deg", "warning", "polaris_azimuth_deg", "polaris_elevation_deg",
            "landmark_azimuth_deg", "landmark_magnetic_deg", "landmark_distance_m",
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
        Option<Site?> landmark = CommonOptions.Value(
            "--to", "LAT,LON", "A landmark that you see, like 47.7985,11.2055: its azimuth and distance", (text, source) => StationText.Read(text, source));
        Option<OutputFormat> format = CommonOptions.Format();
        var command = new Command(
            "bearing",
            """
            Find north: declination, magnetic bearings, the direction of a shadow, by night the pole star and the moon, a landmark.

            Examples:
              cockpit bearing --station 47.8,11.2,520
              cockpit bearing --station 47.8,11.2 --at 2026-11-26T08:56:28Z --true 194
              cockpit bearing --station 47.8,11.2 --to 47.7985,11.2055
              cockpit bearing --station 47.8,11.2 --format json
            """)
        {
            station, at, trueAzimuth, landmark, format,
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
            var asked = new Asked(parsed.GetValue(trueAzimuth), parsed.GetValue(landmark) is { } to ? Geodesic.Between(site, to) : null);
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

    private static Cell[] Cells(Bearings bearings, Asked asked) =>
    [
        Cell.Of(bearings.Utc, 3), Cell.Of(bearings.Site.Latitude.Degrees, 7), Cell.Of(bearings.Site.Longitude.Degrees, 7),
        Cell.Of(bearings.Field.Declination.Degrees, 6), Cell.Of(bearings.Field.DeclinationUncertainty.Degrees, 6),
        Cell.Of(bearings.Field.DeclinationRate.Degrees, 6),
        Cell.Of(bearings.Sun.Azimuth.Degrees, 6), Cell.Of(bearings.Sun.Elevation.Degrees, 6),
        Cell.Of(bearings.Moon.Azimuth.Degrees, 6), Cell.Of(bearings.Moon.Elevation.Degrees, 6),
        Cell.Of(bearings.Shadow?.Degrees, 6), Cell.Of(bearings.ShadowLength, 4),
        Cell.Of(asked.True?.WrappedToTurn().Degrees, 6), Cell.Of(asked.True is { } azimuth ? bearings.Field.ToMagnetic(azimuth).Degrees : null, 6),
        Cell.Of(bearings.Field.Warning), Cell.Of(bearings.Polaris.Azimuth.Degrees, 6), Cell.Of(bearings.Polaris.Elevation.Degrees, 6),
        Cell.Of(asked.ToLandmark?.Degrees, 7), Cell.Of(asked.ToLandmark is { } there ? bearings.Field.ToMagnetic(there).Degrees : null, 6),
        Cell.Of(asked.Landmark?.DistanceMetres, 3),
    ];

    private static void WriteTable(TextWriter output, Bearings bearings, Asked asked)
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

        if (bearings.Moon.Elevation.Radians > 0.0)
        {
            Line("moon", $"azimuth {bearings.Moon.Azimuth.Degrees:0.0}° true, {Compass(bearings.Moon.Azimuth)}, elevation {bearings.Moon.Elevation.Degrees:0.0}°");
        }
        else
        {
            Line("moon", $"down, {-bearings.Moon.Elevation.Degrees:0.0}° below the horizon");
        }

        SkyDirection polaris = bearings.Polaris;
        string shows = bearings.PolarisShows ? "" : polaris.Elevation.Degrees < 5 ? "; too low to be seen" : "; not to be seen before dark";
        Line("Polaris", $"azimuth {polaris.Azimuth.Degrees:0.00}° true, {polaris.Azimuth.WrappedToHalfTurn().Degrees:+0.00;-0.00;0.00}° from north, elevation {polaris.Elevation.Degrees:0.0}°{shows}");
        if (asked.True is { } azimuth)
        {
            Line("bearing", $"{azimuth.WrappedToTurn().Degrees:0.0}° true is {Compass(azimuth)}");
        }

        if (asked is { Landmark: { } landmark, ToLandmark: { } there })
        {
            string compass = Compass(there);
            Line("landmark", $"azimuth {there.Degrees:0.00}° true, {compass}, {Distance(landmark.DistanceMetres)} away");
        }
        else if (asked.Landmark is not null)
        {
            Line("landmark", $"that is where you stand: it has no azimuth");
        }

        foreach (string caution in bearings.Cautions)
        {
            output.WriteLine("caution: " + caution);
        }
    }

    private static string Distance(double metres) => metres < 10_000.0
        ? FormattableString.Invariant($"{metres:0} m")
        : FormattableString.Invariant($"{metres / 1e3:0.0} km");

    /// <summary>What the user asked for beside the sky.</summary>
    private readonly record struct Asked(Angle? True, Geodesic? Landmark)
    {
        private const double SamePlaceMetres = 0.001;

        public Angle? ToLandmark => Landmark is { DistanceMetres: > SamePlaceMetres } line ? line.Azimuth : null;
    }
}
