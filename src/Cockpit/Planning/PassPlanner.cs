using System.Collections.Immutable;
using Cockpit.Core.Formats;
using Cockpit.Core.Orbit;
using Cockpit.Core.Verdicts;

namespace Cockpit.Planning;

/// <summary>The one place that says which passes of a span are worth going out for. No files, no clock: the same question gives the same answer on any number of cores.</summary>
internal static class PassPlanner
{
    /// <summary>Searches and judges.</summary>
    /// <param name="satellites">The satellites, each once, by its newest elements.</param>
    /// <param name="question">Where and when; a pass that is under way at the start is in the answer, whole.</param>
    /// <param name="settings">Station and dish; its link is that of satellites without a downlink of their own.</param>
    /// <param name="downlinks">What is received of which satellite.</param>
    /// <param name="finished">Told the number of satellites that are done after each one, from any thread.</param>
    /// <param name="cancellation">Stops it.</param>
    /// <returns>The passes; or one sentence why they are too many.</returns>
    public static Parsed<PassesAhead> Find(
        ImmutableArray<Sgp4> satellites,
        PassQuestion question,
        VerdictSettings settings,
        ImmutableArray<Downlink> downlinks,
        Action<int>? finished = null,
        CancellationToken cancellation = default)
    {
        SatelliteLinks links = new(settings.Link, downlinks);
        var passes = new PassStream(satellites, question, settings, links);
        if (!PassListing.All(passes, finished ?? (_ => { }), cancellation).Try(out ImmutableArray<PassVerdict> verdicts, out ParseError? error))
        {
            return error;
        }

        Dictionary<int, ElementSet> elements = satellites.ToDictionary(one => one.Elements.CatalogNumber, one => one.Elements);
        ImmutableArray<PlannedPass> worth =
        [
            .. PassJudge.BestFirst(verdicts.Where(verdict => verdict.Word != VerdictWord.No)).Select(verdict =>
            {
                ElementSet own = elements[verdict.Candidate.CatalogNumber];
                return new PlannedPass(verdict, own, links.Of(own), links.DownlinksOf(own));
            }),
        ];
        return new PassesAhead(worth, verdicts.Length - worth.Length);
    }
}
