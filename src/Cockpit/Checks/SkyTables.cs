using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json;
using Cockpit.Core.Geo;
using Cockpit.Core.Sky;
using Cockpit.Core.Time;
using Cockpit.Core.Units;

namespace Cockpit.Checks;

/// <summary>Compares sun and moon with the tables of folder 05_sun_moon.</summary>
public static class SkyTables
{
    /// <summary>Sun and moon against two libraries, difference on the sky.</summary>
    /// <param name="sunMoonCsv">Text of sun_moon.csv.</param>
    public static ImmutableArray<TableCheck> Compare(string sunMoonCsv)
    {
        const string File = "05_sun_moon/sun_moon.csv";
        var sun = new DifferenceTally(File, "sun, two libraries", 0.002, "deg");
        var moon = new DifferenceTally(File, "moon, two libraries", 0.02, "deg");
        foreach (ReferenceRow row in ReferenceReader.Rows(sunMoonCsv))
        {
            SkyBody body = Enum.Parse<SkyBody>(row.Text("body"));
            var site = new Site(Angle.FromDegrees(row.Number("lat")), Angle.FromDegrees(row.Number("lon")), row.Number("alt_m"));
            var utc = DateTimeOffset.Parse(row.Text("utc"), CultureInfo.InvariantCulture);
            LookAngles look = new BodyTrack(body, site).Look(JulianDate.FromUtc(utc));
            foreach (string library in (ReadOnlySpan<string>)["ephem", "ae"])
            {
                (body == SkyBody.Sun ? sun : moon).Add(OnSky(look, row.Number("az_" + library), row.Number("el_" + library)));
            }
        }

        return [sun.Result(), moon.Result()];
    }

    /// <summary>The worked example of the NREL report with its intermediate values.</summary>
    /// <param name="spaExampleJson">Text of spa_example.json.</param>
    public static ImmutableArray<TableCheck> CompareWorkedExample(string spaExampleJson)
    {
        const string File = "05_sun_moon/spa_example.json";
        using var example = JsonDocument.Parse(spaExampleJson);
        JsonElement input = example.RootElement.GetProperty("input");
        JsonElement expect = example.RootElement.GetProperty("expect");
        double In(string name) => input.GetProperty(name).GetDouble();
        double Out(string name) => expect.GetProperty(name).GetDouble();

        var utc = JulianDate.FromUtc(DateTimeOffset.Parse(input.GetProperty("utc").GetString()! + "Z", CultureInfo.InvariantCulture));
        double centuries = TerrestrialTime.CenturiesSinceJ2000(utc, In("delta_t_s"));
        var earth = EarthOrbit.At(centuries);
        var nutation = Nutation.At(centuries);
        var site = new Site(Angle.FromDegrees(In("latitude_deg")), Angle.FromDegrees(In("longitude_deg")), In("elevation_m"));
        LookAngles look = new BodyTrack(SkyBody.Sun, site).Look(utc, In("delta_t_s"));

        var day = new DifferenceTally(File, "julian day", 5e-7, "d");
        day.Add(utc.Day + utc.Fraction, Out("julian_day"));
        var steps = new DifferenceTally(File, "intermediate angles", 1e-5, "deg");
        steps.AddDegrees(earth.Longitude.Degrees, Out("L_heliocentric_longitude_deg"));
        steps.AddDegrees(earth.Latitude.Degrees, Out("B_heliocentric_latitude_deg"));
        steps.AddDegrees(nutation.InLongitude.Degrees, Out("delta_psi_deg"));
        steps.AddDegrees(nutation.InObliquity.Degrees, Out("delta_epsilon_deg"));
        steps.AddDegrees(nutation.TrueObliquity.Degrees, Out("epsilon_deg"));
        var distance = new DifferenceTally(File, "distance", 5e-7, "au");
        distance.Add(earth.DistanceAu, Out("R_au"));
        var place = new DifferenceTally(File, "azimuth, elevation", 1e-5, "deg");
        place.AddDegrees(look.Azimuth.Degrees, Out("azimuth_east_of_north_deg"));
        place.AddDegrees(look.Elevation.Degrees, Out("elevation_without_refraction_deg"));
        return [day.Result(), steps.Result(), distance.Result(), place.Result()];
    }

    private static double OnSky(LookAngles look, double azimuthDegrees, double elevationDegrees)
    {
        double across = Math.IEEERemainder(look.Azimuth.Degrees - azimuthDegrees, 360.0) * look.Elevation.Cos();
        double up = look.Elevation.Degrees - elevationDegrees;
        return Math.Sqrt((across * across) + (up * up));
    }
}
