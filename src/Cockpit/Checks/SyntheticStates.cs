using System.Globalization;
using Cockpit.Core.Formats.Elements;
using Cockpit.Core.Geo;
using Cockpit.Core.Orbit;
using Cockpit.Core.Orbit.Theory;

namespace Cockpit.Checks;

/// <summary>Reads tables of states that belong to a file of elements.</summary>
public static class SyntheticStates
{
    /// <summary>Every element set with its states, in the order of the elements.</summary>
    /// <param name="elements">Text of the elements, any form.</param>
    /// <param name="table">Comma table with tsince_min, x_km.., vx_km_s.., and where there are several sets name and err.</param>
    /// <exception cref="FormatException">The elements are not all good.</exception>
    public static IReadOnlyList<(ElementSet Elements, IReadOnlyList<GivenState> States)> Read(string elements, string table)
    {
        ElementFile file = ElementSets.Read("reference elements", new StringReader(elements));
        if (file.Errors.Length > 0)
        {
            throw new FormatException(string.Join("; ", file.Errors));
        }

        ILookup<string, GivenState> states = ReferenceReader.Rows(table)
            .ToLookup(row => Optional(row, "name", ""), State, StringComparer.Ordinal);
        bool named = !states.Contains("");
        return [.. file.Sets.Select(set => (set, (IReadOnlyList<GivenState>)[.. states[named ? set.Name : ""]]))];
    }

    private static GivenState State(ReferenceRow row)
    {
        var status = (PropagationStatus)int.Parse(Optional(row, "err", "0"), CultureInfo.InvariantCulture);
        return new GivenState(
            row.Number("tsince_min"),
            status,
            status == PropagationStatus.Good
                ? new TemeState(row.Number("x_km"), row.Number("y_km"), row.Number("z_km"), row.Number("vx_km_s"), row.Number("vy_km_s"), row.Number("vz_km_s"))
                : null);
    }

    private static string Optional(ReferenceRow row, string column, string without) =>
        row.Columns.ContainsKey(column) ? row.Text(column) : without;
}
