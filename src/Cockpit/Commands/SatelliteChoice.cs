using System.Collections.Immutable;
using Cockpit.Core.Formats;
using Cockpit.Core.Link;
using Cockpit.Core.Orbit;
using Cockpit.Planning;

namespace Cockpit.Commands;

/// <summary>The satellites a command works on: one by --satellite, else all of the file, each by its newest set.</summary>
public static class SatelliteChoice
{
    /// <summary>Reads, picks and sets up; what is wrong beside good sets goes to the complaints.</summary>
    /// <param name="path">The file of elements.</param>
    /// <param name="wanted">Name or number; null = all.</param>
    /// <param name="complaints">Where mistakes beside good sets are told.</param>
    /// <returns>At least one propagation; or the one sentence why there is none.</returns>
    public static Parsed<ImmutableArray<Sgp4>> Read(string path, string? wanted, TextWriter complaints) =>
        Read(path, wanted is null ? [] : [wanted], complaints);

    /// <summary>The same for several satellites; one that is not there is told, and the others serve.</summary>
    /// <param name="path">The file of elements.</param>
    /// <param name="wanted">Names or numbers; empty = all.</param>
    /// <param name="complaints">Where mistakes beside good sets are told.</param>
    public static Parsed<ImmutableArray<Sgp4>> Read(string path, IReadOnlyList<string> wanted, TextWriter complaints)
    {
        ArgumentNullException.ThrowIfNull(wanted);
        if (!ElementsInput.Read(path, complaints).Try(out ImmutableArray<ElementSet> sets, out ParseError? error)
            || !Chosen(sets, path, wanted, complaints).Try(out sets, out error))
        {
            return error;
        }

        string[] refusals = [.. sets.Select(Sgp4.Validate).OfType<string>()];
        if (refusals.Length == sets.Length)
        {
            return new ParseError(path, 0, 0, refusals[0]);
        }

        foreach (string refusal in refusals)
        {
            complaints.WriteLine(new ParseError(path, 0, 0, refusal));
        }

        return sets.Where(set => Sgp4.Validate(set) is null).Select(set => new Sgp4(set)).ToImmutableArray();
    }

    /// <summary>Tells which downlinks fit no satellite of the whole file; where satellites were chosen, those of others are no mistake.</summary>
    /// <param name="satellites">What was read.</param>
    /// <param name="wanted">What was chosen; empty = all of the file.</param>
    /// <param name="downlinks">The downlinks.</param>
    /// <param name="complaints">Where it is told.</param>
    internal static void TellStrangers(ImmutableArray<Sgp4> satellites, IReadOnlyList<string> wanted, ImmutableArray<Downlink> downlinks, TextWriter complaints)
    {
        if (wanted.Count > 0)
        {
            return;
        }

        foreach (Downlink stranger in new SatelliteLinks(new LinkModel(), downlinks).Without([.. satellites.Select(satellite => satellite.Elements)]))
        {
            complaints.WriteLine(new ParseError("--downlink", 0, 0, $"{Quoted.Of(stranger.Satellite)} is none of the satellites of the file; its downlink is passed over"));
        }
    }

    private static Parsed<ImmutableArray<ElementSet>> Chosen(ImmutableArray<ElementSet> sets, string path, IReadOnlyList<string> wanted, TextWriter complaints)
    {
        if (wanted.Count == 0)
        {
            return ImmutableArray.CreateRange(sets.GroupBy(set => set.CatalogNumber).Select(group => group.MaxBy(set => set.EpochUtc)!));
        }

        var chosen = ImmutableArray.CreateBuilder<ElementSet>();
        List<ParseError> missing = [];
        foreach (string one in wanted)
        {
            if (!ElementsInput.Pick(sets, path, one).Try(out ElementSet? set, out ParseError? error))
            {
                missing.Add(error);
            }
            else if (chosen.All(before => before.CatalogNumber != set.CatalogNumber))
            {
                chosen.Add(set);
            }
        }

        if (chosen.Count == 0)
        {
            return missing[0];
        }

        missing.ForEach(complaints.WriteLine);
        return chosen.ToImmutable();
    }
}
