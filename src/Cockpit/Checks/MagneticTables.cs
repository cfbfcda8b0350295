using System.Collections.Immutable;
using Cockpit.Core.Geo;
using Cockpit.Core.Magnetic;
using Cockpit.Core.Units;

namespace Cockpit.Checks;

/// <summary>Compares the magnetic field with the tables of folder 06_magnetic.</summary>
public static class MagneticTables
{
    private static readonly ImmutableArray<(string Column, Func<MagneticField, double> Of)> Strengths =
    [
        ("x", field => field.North), ("y", field => field.East), ("z", field => field.Down),
        ("h", field => field.Horizontal), ("f", field => field.Total),
    ];

    private static readonly ImmutableArray<(string Column, Func<MagneticField, double> Of)> Angles =
    [
        ("decl", field => field.Declination.Degrees), ("incl", field => field.Inclination.Degrees),
    ];

    private static readonly ImmutableArray<(string Column, Func<MagneticField, double> Of)> Rates =
    [
        ("xdot", field => field.NorthRate), ("ydot", field => field.EastRate), ("zdot", field => field.DownRate),
        ("hdot", field => field.HorizontalRate), ("fdot", field => field.TotalRate),
    ];

    private static readonly ImmutableArray<(string Column, Func<MagneticField, double> Of)> AngleRates =
    [
        ("ddot", field => field.DeclinationRate.Degrees), ("idot", field => field.InclinationRate.Degrees),
    ];

    /// <summary>The official test values: strengths in full, angles printed to 0.01°.</summary>
    /// <param name="testValuesCsv">Text of wmm2025_test_values.csv.</param>
    public static ImmutableArray<TableCheck> CompareTestValues(string testValuesCsv)
    {
        const string File = "06_magnetic/wmm2025_test_values.csv";
        return [One(testValuesCsv, File, "strengths", Strengths, 0.5, "nT"), One(testValuesCsv, File, "angles", Angles, 0.01, "deg")];
    }

    /// <summary>The sample rows of the model's read-me, with rates.</summary>
    /// <param name="readMeCsv">Text of wmm2025_readme_rows.csv.</param>
    public static ImmutableArray<TableCheck> CompareSampleRows(string readMeCsv) => WithRates(readMeCsv, "06_magnetic/wmm2025_readme_rows.csv");

    /// <summary>Other places and dates.</summary>
    /// <param name="fieldTableCsv">Text of field_table.csv.</param>
    public static ImmutableArray<TableCheck> CompareFieldTable(string fieldTableCsv) => WithRates(fieldTableCsv, "06_magnetic/field_table.csv");

    private static ImmutableArray<TableCheck> WithRates(string csv, string file) =>
    [
        One(csv, file, "strengths", Strengths, 0.5, "nT"),
        One(csv, file, "angles", Angles, 0.01, "deg"),
        One(csv, file, "rates of strengths", Rates, 0.1, "nT/y"),
        One(csv, file, "rates of angles", AngleRates, 0.01, "deg/y"),
    ];

    private static TableCheck One(
        string csv, string file, string quantity, ImmutableArray<(string Column, Func<MagneticField, double> Of)> columns, double tolerance, string unit)
    {
        var tally = new DifferenceTally(file, quantity, tolerance, unit);
        foreach (ReferenceRow row in ReferenceReader.Rows(csv))
        {
            var site = new Site(Angle.FromDegrees(row.Number("lat")), Angle.FromDegrees(row.Number("lon")), row.Number("alt_km") * 1e3);
            MagneticField field = WorldMagneticModel.At(site, row.Number("year"));
            foreach ((string column, Func<MagneticField, double> of) in columns)
            {
                double difference = of(field) - row.Number(column);
                tally.Add(columns == Angles ? Math.IEEERemainder(difference, 360.0) : difference);
            }
        }

        return tally.Result();
    }
}
