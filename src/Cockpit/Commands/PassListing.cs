using System.Collections.Immutable;
using Cockpit.Core.Geo;
using Cockpit.Core.Orbit;
using Cockpit.Core.Passes;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;
using Cockpit.Core.Verdicts;

namespace Cockpit.Commands;

/// <summary>What cockpit passes looks for.</summary>
/// <param name="Station">Where one stands.</param>
/// <param name="From">Start of the span, UTC.</param>
/// <param name="To">Its end.</param>
/// <param name="Above">The lowest elevation that counts.</param>
/// <param name="Horizon">What hides the sky, or null.</param>
/// <param name="Dut1Seconds">UT1 - UTC.</param>
/// <param name="Refraction">Whether elevations are meant with radio refraction.</param>
public sealed record PassQuestion(Site Station, DateTimeOffset From, DateTimeOffset To, Angle Above, HorizonMask? Horizon, double Dut1Seconds, bool Refraction)
{
    /// <summary>An elevation as it is shown.</summary>
    public Angle Shown(Angle geometric) => Refraction ? Core.Sky.Refraction.ApparentRadioElevation(geometric, HeightKm) : geometric;

    /// <summary>The limit without air for a limit as it is seen.</summary>
    internal Angle Geometric(Angle seen) =>
        Refraction && seen > Angle.Zero ? seen - Core.Sky.Refraction.RadioFromApparent(seen, HeightKm)
        : Refraction ? seen - Core.Sky.Refraction.RadioFromApparent(Angle.Zero, HeightKm)
        : seen;

    private double HeightKm => Math.Clamp(Station.HeightMetres / 1e3, 0.0, 3.0); // the range of ITU-R P.834's formula
}

/// <summary>One pass of one satellite.</summary>
/// <param name="Track">The satellite over the station.</param>
/// <param name="Pass">The pass, geometric.</param>
public sealed record ListedPass(SatelliteTrack Track, Pass Pass)
{
    /// <summary>The elements.</summary>
    public ElementSet Elements => Track.Satellite.Elements;
}

/// <summary>Searches the passes of many satellites, on all cores.</summary>
public static class PassListing
{
    /// <summary>All passes that overlap the span, by time of rise.</summary>
    /// <param name="satellites">The satellites.</param>
    /// <param name="question">What is looked for.</param>
    /// <param name="cancellation">Stops the search.</param>
    public static ImmutableArray<ListedPass> Search(ImmutableArray<Sgp4> satellites, PassQuestion question, CancellationToken cancellation)
    {
        Angle above = question.Geometric(question.Above);
        HorizonMask? horizon = question.Horizon is { } seen
            ? new HorizonMask(seen.Points.Select(p => p with { Elevation = question.Geometric(p.Elevation) }))
            : null;
        var found = new ListedPass[satellites.Length][];
        Parallel.For(0, satellites.Length, new ParallelOptions { CancellationToken = cancellation }, k =>
        {
            var track = new SatelliteTrack(satellites[k], question.Station, question.Dut1Seconds);
            found[k] = [.. PassSearch.Overlapping(track, question.From, question.To, above, horizon).Select(pass => new ListedPass(track, pass))];
        });
        return [.. found.SelectMany(passes => passes).OrderBy(listed => listed.Pass.Aos.Utc).ThenBy(listed => listed.Elements.CatalogNumber)];
    }

    /// <summary>Judges passes on all cores.</summary>
    /// <param name="passes">What was found.</param>
    /// <param name="settings">Station, dish, service.</param>
    /// <param name="cancellation">Stops it.</param>
    /// <returns>Verdicts in the order of the passes, clashes among them named.</returns>
    public static ImmutableArray<PassVerdict> Judge(ImmutableArray<ListedPass> passes, VerdictSettings settings, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(settings);
        var verdicts = new PassVerdict[passes.Length];
        Parallel.For(0, passes.Length, new ParallelOptions { CancellationToken = cancellation }, k =>
        {
            ListedPass listed = passes[k];
            verdicts[k] = PassJudge.One(
                new PassCandidate(listed.Elements.Name, listed.Elements.CatalogNumber, listed.Pass, listed.Track, ElementAge.At(listed.Elements, listed.Pass.Tca.Utc)), settings);
        });
        return PassJudge.WithClashes([.. verdicts], settings.TurnAround);
    }
}
