using System.Globalization;
using Cockpit.Core.Formats.Elements;
using Cockpit.Core.Geo;
using Cockpit.Core.Orbit;
using Cockpit.Core.Orbit.Theory;

namespace Cockpit.Checks;

/// <summary>One case of the verification set: elements and the states published for them.</summary>
/// <param name="Number">Position in the set, from 1.</param>
/// <param name="Elements">The elements.</param>
/// <param name="States">The published states, and the first error where there is one.</param>
public sealed record PublishedSgp4Case(int Number, ElementSet Elements, IReadOnlyList<GivenState> States);

/// <summary>Reads the verification set of AIAA 2006-6753 (Vallado, Crawford, Hujsak, Kelso): elements, states, error codes.</summary>
public static class PublishedSgp4Cases
{
    /// <summary>The 33 cases in the order of the set.</summary>
    /// <param name="elements">Text of the file of elements; wrong checksums in it are known and accepted.</param>
    /// <param name="states">Text of the published output.</param>
    /// <param name="errors">Text of the table of cases that end in an error.</param>
    /// <exception cref="FormatException">The texts are not that set.</exception>
    public static IReadOnlyList<PublishedSgp4Case> Read(string elements, string states, string errors)
    {
        ElementFile file = ElementSets.Read("verification elements", new StringReader(elements), new ElementReading(AcceptWrongChecksums: true));
        List<List<GivenState>> blocks = Blocks(states);
        Dictionary<int, GivenState> firstErrors = FirstErrors(errors);
        if (file.Errors.Length > 0 || file.Sets.Length != blocks.Count)
        {
            throw new FormatException($"{file.Sets.Length} element sets and {blocks.Count} blocks of states; {string.Join("; ", file.Errors)}");
        }

        var cases = new List<PublishedSgp4Case>();
        for (int k = 0; k < blocks.Count; k++)
        {
            List<GivenState> rows = blocks[k];
            if (firstErrors.TryGetValue(k + 1, out GivenState error))
            {
                // The published program printed a stale line when the very first instant already failed.
                rows.RemoveAll(row => row.Minutes >= error.Minutes);
                rows.Add(error);
            }

            cases.Add(new PublishedSgp4Case(k + 1, file.Sets[k], rows));
        }

        return cases;
    }

    private static List<List<GivenState>> Blocks(string text)
    {
        var blocks = new List<List<GivenState>>();
        foreach (string line in text.Split('\n'))
        {
            string[] parts = line.Split(' ', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
            if (parts is [_, "xx"])
            {
                blocks.Add([]);
            }
            else if (parts.Length >= 7)
            {
                double[] v = [.. parts.Take(7).Select(p => double.Parse(p, CultureInfo.InvariantCulture))];
                blocks[^1].Add(new GivenState(v[0], PropagationStatus.Good, new TemeState(v[1], v[2], v[3], v[4], v[5], v[6])));
            }
        }

        return blocks;
    }

    private static Dictionary<int, GivenState> FirstErrors(string table) => ReferenceReader.Rows(table)
        .Where(row => row.Text("code").Length > 0)
        .ToDictionary(
            row => int.Parse(row.Text("case"), CultureInfo.InvariantCulture),
            row => new GivenState(
                row.Number("first_error_tsince_min"),
                (PropagationStatus)int.Parse(row.Text("code"), CultureInfo.InvariantCulture),
                null));
}
