using System.Collections.Immutable;

namespace Cockpit.Checks;

/// <summary>All tables of folders 02, 03, 04 and 08 in one go.</summary>
public static class FrameTables
{
    /// <summary>One line per table and quantity.</summary>
    /// <param name="text">Gives the text of a file by its path under the reference folder, with '/' between folder and file.</param>
    public static ImmutableArray<TableCheck> Compare(Func<string, string> text)
    {
        ArgumentNullException.ThrowIfNull(text);
        var scene = new ReferenceScene(text("satellites.tle"), text("stations.json"));
        return
        [
            .. LookTables.Compare(scene, text("02_look_angles/look_angles.csv")),
            .. PassTables.Compare(scene, text("03_passes/passes.csv")),
            .. LookTables.CompareDoppler(scene, text("04_doppler/doppler.csv")),
            .. GeodesyTables.CompareEcef(text("08_geodesy/geodetic_ecef.csv")),
            GeodesyTables.CompareSiderealTime(text("08_geodesy/gmst.csv")),
            .. GeodesyTables.CompareExamples(text("08_geodesy/published_examples.json")),
        ];
    }
}
