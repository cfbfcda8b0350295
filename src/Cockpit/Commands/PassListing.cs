using System.Collections.Immutable;
using System.Runtime.InteropServices;
using Cockpit.Core.Formats;
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
internal sealed record PassQuestion(Site Station, DateTimeOffset From, DateTimeOffset To, Angle Above, HorizonMask? Horizon, double Dut1Seconds, bool Refraction)
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

/// <summary>Searches the passes of many satellites and judges them, on all cores.</summary>
internal static class PassListing
{
    /// <summary>Most passes of one list; with them the program stays below 400 MB.</summary>
    public const int MostPasses = 250_000;

    /// <summary>All passes that overlap the span with their verdicts, by time of rise, then by catalogue number; clashes among them named.</summary>
    /// <param name="satellites">The satellites.</param>
    /// <param name="question">What is looked for.</param>
    /// <param name="settings">Station, dish, service.</param>
    /// <param name="finished">Told the number of satellites that are done after each one, from any thread.</param>
    /// <param name="most">Most passes that are taken.</param>
    /// <param name="cancellation">Stops it.</param>
    /// <returns>The verdicts, or one sentence why these are too many.</returns>
    public static Parsed<ImmutableArray<PassVerdict>> Judged(
        ImmutableArray<Sgp4> satellites, PassQuestion question, VerdictSettings settings, Action<int> finished, CancellationToken cancellation, int most = MostPasses)
    {
        ArgumentNullException.ThrowIfNull(question);
        ArgumentNullException.ThrowIfNull(finished);
        var search = new Search(question, settings);
        var found = new PassVerdict[satellites.Length][];
        int done = 0;
        int passes = 0;
        ParallelLoopResult result = Parallel.For(0, satellites.Length, new ParallelOptions { CancellationToken = cancellation }, (k, loop) =>
        {
            found[k] = search.Of(satellites[k]);
            if (Interlocked.Add(ref passes, found[k].Length) > most)
            {
                loop.Stop();
                return;
            }

            finished(Interlocked.Increment(ref done));
        });
        if (!result.IsCompleted)
        {
            return new ParseError("--for", 0, 0, FormattableString.Invariant(
                $"these {satellites.Length} satellites have more than {most} passes in this span; make --for shorter or --above higher, or choose with --satellite"));
        }

        PassVerdict[] all = [.. found.SelectMany(one => one)];
        Array.Sort(all, static (a, b) => a.Pass.Aos.Utc != b.Pass.Aos.Utc
            ? a.Pass.Aos.Utc.CompareTo(b.Pass.Aos.Utc)
            : a.Candidate.CatalogNumber.CompareTo(b.Candidate.CatalogNumber));
        return PassJudge.WithClashes(ImmutableCollectionsMarshal.AsImmutableArray(all), settings.TurnAround);
    }

    /// <summary>Finds and judges the passes of one satellite; safe from any thread.</summary>
    private sealed class Search(PassQuestion question, VerdictSettings settings)
    {
        private readonly Angle _above = question.Geometric(question.Above);

        private readonly HorizonMask? _horizon = question.Horizon is { } seen
            ? new HorizonMask(seen.Points.Select(p => p with { Elevation = question.Geometric(p.Elevation) }))
            : null;

        public PassVerdict[] Of(Sgp4 satellite)
        {
            ElementSet elements = satellite.Elements;
            var track = new SatelliteTrack(satellite, question.Station, question.Dut1Seconds);
            PassVerdict VerdictOf(Pass pass) => PassJudge.One(
                new PassCandidate(elements.Name, elements.CatalogNumber, pass, track, ElementAge.At(elements, pass.Tca.Utc)), settings);
            return [.. PassSearch.Overlapping(track, question.From, question.To, _above, _horizon).Select(VerdictOf)];
        }
    }
}
