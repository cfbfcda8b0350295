using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json;
using Cockpit.Core.Geo;
using Cockpit.Core.Time;
using Cockpit.Core.Units;

namespace Cockpit.Checks;

/// <summary>Compares sidereal time, WGS 84 and the frames with folder 08_geodesy.</summary>
public static class GeodesyTables
{
    /// <summary>Sidereal time against the IAU SOFA values.</summary>
    /// <param name="gmstCsv">Text of gmst.csv.</param>
    public static TableCheck CompareSiderealTime(string gmstCsv)
    {
        var tally = new DifferenceTally("08_geodesy/gmst.csv", "Greenwich mean sidereal time", 1e-8, "deg");
        foreach (ReferenceRow row in ReferenceReader.Rows(gmstCsv))
        {
            tally.AddDegrees(SiderealTime.Greenwich(new JulianDate(row.Number("jd0"), row.Number("frac"))).Degrees, row.Number("gmst82_deg"));
        }

        return tally.Result();
    }

    /// <summary>Sites to Earth-fixed points and back against the IAU SOFA values.</summary>
    /// <param name="geodeticCsv">Text of geodetic_ecef.csv.</param>
    public static ImmutableArray<TableCheck> CompareEcef(string geodeticCsv)
    {
        const string File = "08_geodesy/geodetic_ecef.csv";
        var there = new DifferenceTally(File, "geodetic to Earth-fixed", 1e-5, "m");
        var back = new DifferenceTally(File, "Earth-fixed to geodetic and back", 1e-5, "m");
        foreach (ReferenceRow row in ReferenceReader.Rows(geodeticCsv))
        {
            var site = new Site(Angle.FromDegrees(row.Number("lat_deg")), Angle.FromDegrees(row.Number("lon_deg")), row.Number("h_m"));
            var published = new EcefPosition(row.Number("x_m") / 1e3, row.Number("y_m") / 1e3, row.Number("z_m") / 1e3);
            there.Add(MetresBetween(EcefPosition.FromSite(site), published));
            back.Add(published.ToSite().HeightMetres, site.HeightMetres);
            back.Add(MetresBetween(EcefPosition.FromSite(published.ToSite()), published));
        }

        return [there.Result(), back.Result()];
    }

    /// <summary>The printed examples of Vallado's textbook and of AIAA 2006-6753.</summary>
    /// <param name="publishedExamplesJson">Text of published_examples.json.</param>
    public static ImmutableArray<TableCheck> CompareExamples(string publishedExamplesJson)
    {
        const string File = "08_geodesy/published_examples.json";
        var sidereal35 = new DifferenceTally(File, "sidereal time, Vallado ex. 3-5", 1e-7, "deg");
        var sidereal315 = new DifferenceTally(File, "sidereal time, Vallado ex. 3-15", 1e-6, "deg");
        var position = new DifferenceTally(File, "TEME to Earth-fixed, AIAA example", 2e-5, "km");
        var velocity = new DifferenceTally(File, "the same, velocity", 1e-7, "km/s");
        var degrees = new DifferenceTally(File, "geodetic, Vallado ex. 3-3", 5e-5, "deg"); // the longitude is printed to 1e-4
        var height = new DifferenceTally(File, "the same, height", 0.01, "km");
        using var document = JsonDocument.Parse(publishedExamplesJson);
        foreach (JsonElement example in document.RootElement.EnumerateArray())
        {
            JsonElement input = example.GetProperty("input");
            JsonElement expect = example.GetProperty("expect");
            switch (example.GetProperty("id").GetString())
            {
                case "gmst_vallado_3_5":
                    sidereal35.AddDegrees(Sidereal(input, "ut1", 0.0).Degrees, expect.GetProperty("gmst_deg").GetDouble());
                    break;
                case "gmst_vallado_3_15":
                    sidereal315.AddDegrees(Sidereal(input, "ut1", 0.0).Degrees, expect.GetProperty("gmst_deg").GetDouble());
                    break;
                case "teme_to_pef":
                    double[] r = Vector(input, "r_teme_km");
                    double[] v = Vector(input, "v_teme_km_s");
                    var got = EcefState.FromTeme(new TemeState(r[0], r[1], r[2], v[0], v[1], v[2]), Sidereal(input, "utc", input.GetProperty("dut1_s").GetDouble()));
                    AddVector(position, [got.X, got.Y, got.Z], Vector(expect, "r_pef_km"));
                    AddVector(velocity, [got.Vx, got.Vy, got.Vz], Vector(expect, "v_pef_km_s"));
                    break;
                case "ecef_to_geodetic_vallado_3_3":
                    double[] p = Vector(input, "r_ecef_km");
                    Site site = new EcefPosition(p[0], p[1], p[2]).ToSite();
                    degrees.Add(site.Latitude.Degrees, expect.GetProperty("geodetic_lat_deg").GetDouble());
                    degrees.Add(site.Longitude.Degrees, expect.GetProperty("lon_deg").GetDouble());
                    height.Add(site.HeightMetres / 1e3, expect.GetProperty("h_km").GetDouble());
                    break;
                default: // examples for other parts, or on another ellipsoid
                    break;
            }
        }

        return [sidereal35.Result(), sidereal315.Result(), position.Result(), velocity.Result(), degrees.Result(), height.Result()];
    }

    private static Angle Sidereal(JsonElement input, string name, double ut1MinusUtc)
    {
        string text = input.GetProperty(name).GetString() ?? throw new FormatException($"{name} is missing");
        var moment = JulianDate.FromUtc(DateTimeOffset.Parse(text, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal | DateTimeStyles.AdjustToUniversal));
        return SiderealTime.Greenwich(moment.AddSeconds(ut1MinusUtc));
    }

    private static double[] Vector(JsonElement from, string name) => [.. from.GetProperty(name).EnumerateArray().Select(e => e.GetDouble())];

    private static void AddVector(DifferenceTally tally, double[] ours, double[] published)
    {
        foreach ((double our, double their) in ours.Zip(published))
        {
            tally.Add(our, their);
        }
    }

    private static double MetresBetween(EcefPosition a, EcefPosition b) => new EcefPosition(a.X - b.X, a.Y - b.Y, a.Z - b.Z).RadiusKm * 1e3;
}
