using System.Collections.Immutable;
using Cockpit.Core.Formats.Elements;
using Cockpit.Core.Geo;
using Cockpit.Core.Orbit;
using Cockpit.Core.Orbit.Theory;
using Cockpit.Core.Sky;
using Cockpit.Core.Time;
using Cockpit.Core.Units;

namespace Cockpit.Checks;

/// <summary>Compares the pole star, landmarks and the ground below a satellite with the tables of folder 13_north_ground.</summary>
public static class GroundTables
{
    private const string Folder = "13_north_ground/";
    private const double MetresPerDegree = 111195.0; // of arc on a sphere of the earth's mean radius

    /// <summary>One line per table and quantity.</summary>
    /// <param name="text">Gives the text of a file by its path under the reference folder.</param>
    public static ImmutableArray<TableCheck> Compare(Func<string, string> text)
    {
        ArgumentNullException.ThrowIfNull(text);
        return
        [
            .. ComparePolaris(text(Folder + "polaris.csv")),
            .. CompareLandmarks(text(Folder + "landmarks.csv")),
            .. CompareGround(text(Folder + "ground.csv"), text("satellites.tle")),
        ];
    }

    /// <summary>Azimuth and elevation of the pole star by two independent chains of one library.</summary>
    /// <param name="polarisCsv">Text of polaris.csv.</param>
    public static ImmutableArray<TableCheck> ComparePolaris(string polarisCsv)
    {
        var azimuth = new DifferenceTally(Folder + "polaris.csv", "Polaris, azimuth", 0.002, "deg");
        var elevation = new DifferenceTally(Folder + "polaris.csv", "Polaris, elevation", 0.002, "deg");
        foreach (ReferenceRow row in ReferenceReader.Rows(polarisCsv))
        {
            SkyDirection seen = new StarTrack(Star.Polaris, Place(row, "lat", "lon")).At(ReferenceScene.Utc(row, "utc"));
            foreach (string chain in (ReadOnlySpan<string>)["deg", "second"])
            {
                azimuth.AddDegrees(seen.Azimuth.Degrees, row.Number("az_" + chain));
                elevation.Add(seen.Elevation.Degrees, row.Number("el_" + chain));
            }
        }

        return [azimuth.Result(), elevation.Result()];
    }

    /// <summary>Azimuth and distance of geodesics, nearly opposite places among them; the azimuth of a place to itself is left out.</summary>
    /// <param name="landmarksCsv">Text of landmarks.csv.</param>
    public static ImmutableArray<TableCheck> CompareLandmarks(string landmarksCsv)
    {
        var azimuth = new DifferenceTally(Folder + "landmarks.csv", "landmarks, azimuth", 1e-6, "deg");
        var distance = new DifferenceTally(Folder + "landmarks.csv", "landmarks, distance", 1e-3, "m");
        foreach (ReferenceRow row in ReferenceReader.Rows(landmarksCsv))
        {
            var line = Geodesic.Between(Place(row, "from_lat", "from_lon"), Place(row, "to_lat", "to_lon"));
            distance.Add(line.DistanceMetres, row.Number("distance_m"));
            if (row.Number("distance_m") > 0.0)
            {
                azimuth.AddDegrees(line.Azimuth.Degrees, row.Number("azimuth_deg"));
            }
        }

        return [azimuth.Result(), distance.Result()];
    }

    /// <summary>The point below and the edges of the scan, difference on the ground.</summary>
    /// <param name="groundCsv">Text of ground.csv.</param>
    /// <param name="satellites">Text of satellites.tle.</param>
    public static ImmutableArray<TableCheck> CompareGround(string groundCsv, string satellites)
    {
        var below = new DifferenceTally(Folder + "ground.csv", "sub-satellite point", 1e-5, "deg");
        var height = new DifferenceTally(Folder + "ground.csv", "height", 1e-3, "km");
        var edges = new DifferenceTally(Folder + "ground.csv", "edges of the scan", 1e-3, "deg");
        var sets = ElementSets.Read("satellites.tle", new StringReader(satellites)).Sets.ToDictionary(set => set.Name, set => new Sgp4(set), StringComparer.Ordinal);
        foreach (ReferenceRow row in ReferenceReader.Rows(groundCsv))
        {
            Sgp4 satellite = sets[row.Text("satellite")];
            var utc = JulianDate.FromUtc(ReferenceScene.Utc(row, "utc"));
            if (satellite.Propagate(utc.MinutesSince(satellite.Elements.Epoch), out TemeState teme) != PropagationStatus.Good)
            {
                below.Add(double.NaN);
                continue;
            }

            var line = new ScanLine(EcefState.FromTeme(teme, SiderealTime.Greenwich(utc)));
            below.Add(Apart(line.SubPoint, row, "sub"));
            height.Add(line.HeightKm, row.Number("height_km"));
            edges.Add(Apart(line.At(-ScanLine.UsualHalfAngle), row, "left"));
            edges.Add(Apart(line.At(ScanLine.UsualHalfAngle), row, "right"));
        }

        return [below.Result(), height.Result(), edges.Result()];
    }

    // Degrees of arc on the ground; NaN where one of the two misses the earth and the other does not.
    private static double Apart(Site? ours, ReferenceRow row, string name)
    {
        bool published = row.Text(name + "_lat").Length > 0;
        return (ours, published) switch
        {
            (null, false) => 0.0,
            ({ } place, true) => Geodesic.Between(place, Place(row, name + "_lat", name + "_lon")).DistanceMetres / MetresPerDegree,
            _ => double.NaN,
        };
    }

    private static Site Place(ReferenceRow row, string latitude, string longitude) =>
        new(Angle.FromDegrees(row.Number(latitude)), Angle.FromDegrees(row.Number(longitude)), 0.0);
}
