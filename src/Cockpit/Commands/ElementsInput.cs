using System.Collections.Immutable;
using System.Globalization;
using Cockpit.Core.Formats;
using Cockpit.Core.Formats.Elements;
using Cockpit.Core.Orbit;

namespace Cockpit.Commands;

/// <summary>Reads the file behind --elements and picks what --satellite names.</summary>
public static class ElementsInput
{
    /// <summary>Reads every good element set; what is wrong beside them goes to the complaints, one sentence a mistake.</summary>
    /// <param name="path">The file.</param>
    /// <param name="complaints">Where mistakes beside good sets are told.</param>
    /// <returns>The sets, at least one; or the one sentence why there is none.</returns>
    public static Parsed<ImmutableArray<ElementSet>> Read(string path, TextWriter complaints)
    {
        if (!InputFiles.Open(path, "--elements", "a TLE or OMM file").Try(out FileStream? stream, out ParseError? trouble))
        {
            return trouble;
        }

        ElementFile file;
        try
        {
            using (stream)
            {
                file = ElementSets.Read(path, stream);
            }
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return InputFiles.Trouble(path, e);
        }

        if (file.Sets.IsEmpty)
        {
            return file.Errors[0];
        }

        foreach (ParseError error in file.Errors)
        {
            complaints.WriteLine(error);
        }

        if (file.FurtherErrors > 0)
        {
            complaints.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{path}: {file.FurtherErrors} more mistakes like these"));
        }

        return file.Sets;
    }

    /// <summary>Picks the satellite that is meant.</summary>
    /// <param name="sets">What the file held, at least one.</param>
    /// <param name="path">The file, for the complaint.</param>
    /// <param name="wanted">Name, part of a name, or catalogue number; null when not given.</param>
    /// <returns>One set, the newest of that satellite; or why not.</returns>
    public static Parsed<ElementSet> Pick(ImmutableArray<ElementSet> sets, string path, string? wanted)
    {
        ImmutableArray<ElementSet> newest = NewestElements.Of(sets);
        if (wanted is null)
        {
            return newest.Length == 1
                ? newest[0]
                : new ParseError("--satellite", 0, 0, $"{path} holds {newest.Length} satellites; say which: {List(newest)}");
        }

        ImmutableArray<ElementSet> found = Matching(newest, wanted);
        return found.Length switch
        {
            1 => found[0],
            0 => new ParseError("--satellite", 0, 0, $"{Quoted.Of(wanted)} is not in {path}; it holds {List(newest)}"),
            _ => new ParseError("--satellite", 0, 0, $"{Quoted.Of(wanted)} fits {found.Length} satellites; say which: {List(found)}"),
        };
    }

    private static ImmutableArray<ElementSet> Matching(ImmutableArray<ElementSet> sets, string wanted)
    {
        if (int.TryParse(wanted, NumberStyles.None, CultureInfo.InvariantCulture, out int number)
            && sets.Where(s => s.CatalogNumber == number).ToImmutableArray() is { IsEmpty: false } numbered)
        {
            return numbered;
        }

        ImmutableArray<ElementSet> exact = [.. sets.Where(s => string.Equals(s.Name.Trim(), wanted.Trim(), StringComparison.OrdinalIgnoreCase))];
        return exact.IsEmpty ? [.. sets.Where(s => s.Name.Contains(wanted.Trim(), StringComparison.OrdinalIgnoreCase))] : exact;
    }

    private static string List(ImmutableArray<ElementSet> sets)
    {
        const int Most = 6;
        string names = string.Join(", ", sets.Take(Most).Select(s => string.Create(CultureInfo.InvariantCulture, $"{s.Name.Trim()} ({s.CatalogNumber})")));
        return sets.Length > Most ? string.Create(CultureInfo.InvariantCulture, $"{names} and {sets.Length - Most} more") : names;
    }
}
