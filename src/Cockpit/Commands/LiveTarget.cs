using System.Collections.Immutable;
using System.CommandLine;
using Cockpit.Core.Formats;
using Cockpit.Core.Link;
using Cockpit.Core.Orbit;
using Cockpit.Core.Verdicts;
using Cockpit.Planning;
using ParseError = Cockpit.Core.Formats.ParseError;

namespace Cockpit.Commands;

/// <summary>What <c>cockpit live</c> follows.</summary>
/// <param name="Elements">The satellite.</param>
/// <param name="Downlink">What it sends; null where nobody said.</param>
/// <param name="Pick">How its pass was chosen; null where the satellite was named and its next pass is meant.</param>
internal sealed record LiveTarget(ElementSet Elements, Downlink? Downlink, LivePick? Pick);

/// <summary>The options that say which satellite is followed: one that is named, else of the favourites, else of all in the file.</summary>
internal sealed class LiveTargets
{
    /// <summary>--favourite NAME|NUMBER.</summary>
    public const string FavouriteName = "--favourite";

    private readonly Option<string> _elements = CommonOptions.Elements();
    private readonly Option<string> _satellite = CommonOptions.Satellite();
    private readonly Option<string[]> _favourites = new(FavouriteName)
    {
        HelpName = "NAME|NUMBER",
        Description = "Of these satellites the next pass worth it is flown, and others are offered; may be repeated; those of the settings where missing, else all of the file",
        DefaultValueFactory = _ => [],
    };

    private readonly Option<Downlink[]> _downlinks = CommonOptions.Downlinks();

    /// <summary>Gives them to a command.</summary>
    /// <param name="command">The command.</param>
    public void AddTo(Command command)
    {
        _elements.Required = true;
        foreach (Option option in new Option[] { _elements, _satellite, _favourites, _downlinks })
        {
            command.Options.Add(option);
        }
    }

    /// <summary>The satellite and its pass.</summary>
    /// <param name="parsed">The words.</param>
    /// <param name="place">Where and from when on; above what.</param>
    /// <param name="link">Dish and amplifier, and what counts for a satellite without a downlink.</param>
    /// <param name="complaints">Where mistakes beside good element sets are told.</param>
    /// <param name="cancellation">Stops the search.</param>
    public Parsed<LiveTarget> Read(ParseResult parsed, PassQuestion place, LinkModel link, TextWriter complaints, CancellationToken cancellation)
    {
        string path = parsed.GetRequiredValue(_elements);
        ImmutableArray<Downlink> downlinks = [.. parsed.GetValue(_downlinks) ?? []];
        SatelliteLinks links = new(link, downlinks);
        if (parsed.GetValue(_satellite) is { } named)
        {
            return ElementsInput.Read(path, complaints).Try(out ImmutableArray<ElementSet> sets, out ParseError? error)
                && ElementsInput.Pick(sets, path, named).Try(out ElementSet? elements, out error)
                    ? Usable(elements, path, links)
                    : error;
        }

        string[] favourites = parsed.GetValue(_favourites) ?? [];
        if (!SatelliteChoice.Read(path, favourites, complaints).Try(out ImmutableArray<Sgp4> satellites, out ParseError? trouble))
        {
            return trouble;
        }

        // A file that holds one satellite names it.
        if (favourites.Length == 0 && satellites.Length == 1)
        {
            return Usable(satellites[0].Elements, path, links);
        }

        return PassPlanner.Find(satellites, place, new VerdictSettings { Site = place.Station, Link = link }, downlinks, null, cancellation).Try(out PassesAhead? ahead, out trouble)
            && LivePick.Of(ahead, place.From).Try(out LivePick? pick, out trouble)
                ? Of(pick)
                : trouble;
    }

    /// <summary>What a pick means.</summary>
    public static LiveTarget Of(LivePick pick) => new(pick.Chosen.Elements, pick.Chosen.Downlinks is [var first, ..] ? first : null, pick);

    private static Parsed<LiveTarget> Usable(ElementSet elements, string path, SatelliteLinks links) => Sgp4.Validate(elements) is { } refusal
        ? new ParseError(path, 0, 0, refusal)
        : new LiveTarget(elements, links.DownlinksOf(elements) is [var first, ..] ? first : null, null);
}
