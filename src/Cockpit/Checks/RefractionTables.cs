using System.Collections.Immutable;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;

namespace Cockpit.Checks;

/// <summary>Compares refraction with the tables of folder 07_refraction.</summary>
public static class RefractionTables
{
    /// <summary>Refraction of light after Bennett and Saemundsson.</summary>
    /// <param name="refractionCsv">Text of refraction.csv.</param>
    public static ImmutableArray<TableCheck> CompareLight(string refractionCsv)
    {
        const string File = "07_refraction/refraction.csv";
        var bennett = new DifferenceTally(File, "light, from apparent elevation", 1e-4, "arcmin");
        var saemundsson = new DifferenceTally(File, "light, from true elevation", 1e-4, "arcmin");
        foreach (ReferenceRow row in ReferenceReader.Rows(refractionCsv))
        {
            Angle elevation = Angle.FromDegrees(row.Number("angle_deg"));
            bennett.Add(Refraction.Bennett(elevation).Degrees * 60.0, row.Number("bennett_arcmin_angle_is_apparent"));
            saemundsson.Add(Refraction.Saemundsson(elevation).Degrees * 60.0, row.Number("saemundsson_arcmin_angle_is_true"));
        }

        return [bennett.Result(), saemundsson.Result()];
    }

    /// <summary>Radio refraction of ITU-R P.834.</summary>
    /// <param name="radioCsv">Text of radio.csv.</param>
    public static ImmutableArray<TableCheck> CompareRadio(string radioCsv)
    {
        const string File = "07_refraction/radio.csv";
        var apparent = new DifferenceTally(File, "radio, from apparent elevation", 1e-6, "deg");
        var geometric = new DifferenceTally(File, "radio, from free-space elevation", 1e-6, "deg");
        var integral = new DifferenceTally(File, "radio formula against ray integral", 0.02, "deg");
        foreach (ReferenceRow row in ReferenceReader.Rows(radioCsv))
        {
            Angle elevation = Angle.FromDegrees(row.Number("angle_deg"));
            double height = row.Number("h_km");
            double ours = Refraction.RadioFromApparent(elevation, height).Degrees;
            apparent.Add(ours, row.Number("tau_formula_apparent"));
            geometric.Add(Refraction.RadioFromGeometric(elevation, height).Degrees, row.Number("tau_s_formula_freespace"));
            integral.Add(ours, row.Number("tau_integral_apparent"));
        }

        return [apparent.Result(), geometric.Result(), integral.Result()];
    }
}
