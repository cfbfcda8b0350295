using System.Collections.Immutable;

namespace Cockpit.Checks;

/// <summary>All tables of folders 05, 06, 07 and 10 in one go.</summary>
public static class HeavensTables
{
    /// <summary>One line per table and quantity.</summary>
    /// <param name="text">Gives the text of a file by its path under the reference folder, with '/' between folder and file.</param>
    public static ImmutableArray<TableCheck> Compare(Func<string, string> text)
    {
        ArgumentNullException.ThrowIfNull(text);
        return
        [
            .. SkyTables.CompareWorkedExample(text("05_sun_moon/spa_example.json")),
            .. SkyTables.Compare(text("05_sun_moon/sun_moon.csv")),
            .. MagneticTables.CompareTestValues(text("06_magnetic/wmm2025_test_values.csv")),
            .. MagneticTables.CompareSampleRows(text("06_magnetic/wmm2025_readme_rows.csv")),
            .. MagneticTables.CompareFieldTable(text("06_magnetic/field_table.csv")),
            .. RefractionTables.CompareLight(text("07_refraction/refraction.csv")),
            .. RefractionTables.CompareRadio(text("07_refraction/radio.csv")),
            .. LinkTables.Compare(text("10_link/link_values.csv")),
        ];
    }
}
