using System.Collections.Immutable;
using System.Text.Json;
using Cockpit.Core.Link;
using Cockpit.Core.Units;

namespace Cockpit.Checks;

/// <summary>Compares the link formulas with the table of definitions in folder 10_link.</summary>
public static class LinkTables
{
    private const string File = "10_link/link_values.csv";

    /// <summary>One check per function of the table, relative differences.</summary>
    /// <param name="linkValuesCsv">Text of link_values.csv: function, arguments as JSON, value (10 digits).</param>
    public static ImmutableArray<TableCheck> Compare(string linkValuesCsv)
    {
        var tallies = new SortedDictionary<string, DifferenceTally>(StringComparer.Ordinal);
        foreach (ReferenceRow row in ReferenceReader.Rows(linkValuesCsv))
        {
            string function = row.Text("function");
            if (!tallies.TryGetValue(function, out DifferenceTally? tally))
            {
                tallies[function] = tally = new DifferenceTally(File, function, 1e-6, "relative");
            }

            using var arguments = JsonDocument.Parse(row.Text("arguments_json"));
            tally.AddRelative(Evaluate(function, arguments.RootElement), row.Number("value"));
        }

        return [.. tallies.Values.Select(tally => tally.Result())];
    }

    private static double Evaluate(string function, JsonElement arguments)
    {
        double At(int i) => arguments[i].GetDouble();
        Frequency Hertz(int i) => new(At(i));
        Decibels Db(int i) => new(At(i));
        Angle Degrees(int i) => Angle.FromDegrees(At(i));
        return function switch
        {
            "fspl" => PathLoss.FreeSpace(Hertz(0), At(1)).Value,
            "p525" => PathLoss.FreeSpaceRounded(Hertz(0), At(1)).Value,
            "dish_gain" => Antenna.Gain(Hertz(0), At(1), At(2)).Value,
            "beamwidth" => Antenna.BeamWidth(Hertz(0), At(1)).Degrees,
            "pointing_loss" => Antenna.PointingLoss(Degrees(0), Degrees(1)).Value,
            "cascade" => Noise.CascadeFactor([.. arguments[0].EnumerateArray().Select(stage => new AmplifierStage(new(stage[0].GetDouble()), new(stage[1].GetDouble())))]),
            "y_factor_te" => Noise.FromYFactorKelvin(At(0), At(1), Db(2)),
            "noise_dbm" => Noise.Power(At(0), Hertz(1)).Value,
            "ber_psk" => Modulation.BitErrorRatio(Db(0)),
            "sky_t" => Noise.SkyKelvin(Degrees(0)),
            "gt_sun" => FigureOfMerit.FromSun(Db(0), At(1), Hertz(2), Degrees(3), Degrees(4)).DecibelsPerKelvin,
            "flux_loglog" => FigureOfMerit.SolarFlux(Hertz(0), Hertz(1), At(2), Hertz(3), At(4)),
            "slant_range" => PathLoss.SlantRangeMetres(Degrees(0), At(1)),
            "attenuator_t" => Noise.AttenuatorKelvin(Db(0), At(1)),
            "sys_t" => Noise.SystemKelvin(At(0), Db(1), At(2), Db(3)),
            "cn0" => Modulation.CarrierToNoiseDensity(Db(0), new FigureOfMerit(At(1)), Db(2)).Value,
            _ => double.NaN,
        };
    }
}
