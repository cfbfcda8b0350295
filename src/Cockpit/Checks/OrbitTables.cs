using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json;
using Cockpit.Core.Formats.Elements;
using Cockpit.Core.Orbit;

namespace Cockpit.Checks;

/// <summary>Compares propagation and element files with the tables of folders 01_sgp4, 08_geodesy and 09_omm_tle.</summary>
public static class OrbitTables
{
    /// <summary>Every table of elements and states, one line a quantity.</summary>
    /// <param name="text">Gives the text of a file by its path inside the folder of reference values.</param>
    public static ImmutableArray<TableCheck> Compare(Func<string, string> text)
    {
        ArgumentNullException.ThrowIfNull(text);
        return
        [
            .. Check("01_sgp4/tcppver.out", Published(text), 1e-6, 1e-8),
            .. Check("01_sgp4/synth_states.csv", Synthetic(text), 1e-6, 1e-9),
            CodesOfLines("08_geodesy/tle_text_examples.csv", text("08_geodesy/tle_text_examples.csv")),
            .. Forms(text),
            Malformed("09_omm_tle/malformed.json", text("09_omm_tle/malformed.json")),
        ];
    }

    /// <summary>The 33 cases of AIAA 2006-6753, largest differences of each.</summary>
    /// <param name="text">Gives the text of a file by its path inside the folder of reference values.</param>
    public static ImmutableArray<StateComparison> Published(Func<string, string> text)
    {
        ArgumentNullException.ThrowIfNull(text);
        return
        [
            .. PublishedSgp4Cases
                .Read(text("01_sgp4/SGP4-VER.TLE"), text("01_sgp4/tcppver.out"), text("01_sgp4/expected_errors.csv"))
                .Select(c => StateComparison.Of(Name(c), new Sgp4(c.Elements), c.States)),
        ];
    }

    /// <summary>The invented element sets, largest differences of each.</summary>
    /// <param name="text">Gives the text of a file by its path inside the folder of reference values.</param>
    public static ImmutableArray<StateComparison> Synthetic(Func<string, string> text)
    {
        ArgumentNullException.ThrowIfNull(text);
        return
        [
            .. SyntheticStates
                .Read(text("01_sgp4/synth_elements.tle"), text("01_sgp4/synth_states.csv"))
                .Select(c => StateComparison.Of(c.Elements.Name, new Sgp4(c.Elements), c.States)),
        ];
    }

    /// <summary>One message in JSON as the table that says the same.</summary>
    /// <param name="json">A list with one flat object.</param>
    public static string ToTable(string json)
    {
        using var message = JsonDocument.Parse(json);
        JsonProperty[] fields = [.. message.RootElement[0].EnumerateObject()];
        return $"{string.Join(',', fields.Select(f => f.Name))}\r\n{string.Join(',', fields.Select(f => f.Value.ToString()))}\r\n";
    }

    private static string Name(PublishedSgp4Case c) =>
        string.Create(CultureInfo.InvariantCulture, $"case {c.Number:00}, object {c.Elements.CatalogNumber:00000}");

    private static IEnumerable<TableCheck> Forms(Func<string, string> text)
    {
        string states = text("09_omm_tle/states.csv");
        (string Name, string Text)[] forms =
        [
            ("case.tle", text("09_omm_tle/case.tle")), ("omm.kvn", text("09_omm_tle/omm.kvn")), ("omm.xml", text("09_omm_tle/omm.xml")),
            ("omm.json", text("09_omm_tle/omm.json")), ("omm.json as a table", ToTable(text("09_omm_tle/omm.json"))),
        ];
        return forms.SelectMany(form => Check(
            "09_omm_tle/" + form.Name,
            SyntheticStates.Read(form.Text, states).Select(c => StateComparison.Of(form.Name, new Sgp4(c.Elements), c.States)),
            1e-6,
            1e-9));
    }

    private static IEnumerable<TableCheck> Check(string table, IEnumerable<StateComparison> results, double km, double kmPerSecond)
    {
        StateComparison[] all = [.. results];
        int states = all.Sum(r => r.States);
        yield return new TableCheck(table, "position TEME", states, all.Max(r => r.LargestKm), km, "km");
        yield return new TableCheck(table, "velocity TEME", states, all.Max(r => r.LargestKmPerSecond), kmPerSecond, "km/s");
        yield return new TableCheck(table, "error codes, wrong ones", states, all.Sum(r => r.WrongCodes.Count), 0.0, "");
    }

    private static TableCheck CodesOfLines(string table, string csv)
    {
        var tally = new DifferenceTally(table, "checksums, catalogue numbers", 0.0, "");
        foreach (ReferenceRow row in ReferenceReader.Rows(csv))
        {
            string sample = row.Text("text");
            bool isNumber = TleCodes.TryCatalogNumber(sample, out int number);
            tally.Add(row.Text("kind") switch
            {
                "checksum" => TleCodes.Checksum(sample) - row.Number("expected"),
                "alpha5" => isNumber ? number - row.Number("expected") : double.NaN,
                "alpha5_invalid" => isNumber ? 1.0 : 0.0,
                _ => double.NaN,
            });
        }

        return tally.Result();
    }

    /// <summary>Each malformed input must give no set and one mistake that names what the table asks for.</summary>
    private static TableCheck Malformed(string table, string json)
    {
        var tally = new DifferenceTally(table, "malformed inputs, not refused so", 0.0, "");
        using var list = JsonDocument.Parse(json);
        foreach (JsonElement input in list.RootElement.EnumerateArray())
        {
            string id = input.GetProperty("id").GetString() ?? "";
            ElementFile file = ElementSets.Read(id, new StringReader(input.GetProperty("text").GetString() ?? ""));
            bool refused = file.Sets.IsEmpty && file.Errors.Length == 1
                && Reason(id).All(part => file.Errors[0].ToString().Contains(part, StringComparison.Ordinal));
            tally.Add(refused ? 0.0 : 1.0);
        }

        return tally.Result();
    }

    private static string[] Reason(string id) => id switch
    {
        "bad01" => [":2:69:", "checksum of line 1"],
        "bad02" => ["99199", "99101"],
        "bad03" => ["short", "60"],
        "bad04" => ["line 2 stands before line 1"],
        "bad05" => ["inclination is 198.597"],
        "bad06" => ["epoch day", "400"],
        "bad07" => ["MEAN_MOTION is missing"],
        "bad08" => ["REF_FRAME", "TIME_SYSTEM", "MEAN_ELEMENT_THEORY"],
        _ => ["an input that is not known here"],
    };
}
