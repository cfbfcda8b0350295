using System.Collections.Immutable;
using Cockpit.Commands;
using Cockpit.Core.Formats;
using Cockpit.Core.Geo;
using Cockpit.Core.Orbit;
using Cockpit.Core.Units;
using Cockpit.Core.Verdicts;

namespace Cockpit.Tests.Passes;

/// <summary>The search over many satellites.</summary>
public sealed class PassListingTests
{
    private static readonly DateTimeOffset Midnight = new(2026, 11, 25, 0, 0, 0, TimeSpan.Zero);
    private static readonly Site Station = new(Angle.FromDegrees(47.8), Angle.FromDegrees(11.2), 520);

    [Fact]
    public void On_all_cores_the_list_is_in_order_and_every_satellite_is_counted_once()
    {
        List<int> finished = [];
        ImmutableArray<Sgp4> satellites = Satellites();
        Assert.True(Judged(satellites, 1000, done => { lock (finished) { finished.Add(done); } }).Try(out ImmutableArray<PassVerdict> verdicts, out ParseError? error), error?.ToString());
        Assert.True(verdicts.Length > 20);
        Assert.Equal(verdicts.OrderBy(verdict => verdict.Pass.Aos.Utc).ThenBy(verdict => verdict.Candidate.CatalogNumber), verdicts);
        Assert.Equal(Enumerable.Range(1, satellites.Length), finished.Order());
    }

    [Fact]
    public void More_passes_than_are_held_are_refused_in_one_sentence() => Assert.Equal(
        "--for: these 6 satellites have more than 9 passes in this span; make --for shorter or --above higher, or choose with --satellite",
        Judged(Satellites(), 9, _ => { }).Error?.ToString());

    private static ImmutableArray<Sgp4> Satellites()
    {
        Assert.True(SatelliteChoice.Read(ReferenceFiles.PathOf("satellites.tle"), null, TextWriter.Null).Try(out ImmutableArray<Sgp4> satellites, out ParseError? error), error?.ToString());
        return satellites;
    }

    private static Parsed<ImmutableArray<PassVerdict>> Judged(ImmutableArray<Sgp4> satellites, int most, Action<int> finished)
    {
        PassQuestion question = new(Station, Midnight, Midnight.AddDays(1), Angle.FromDegrees(5), null, 0.0, Refraction: false);
        return PassListing.Judged(satellites, question, new VerdictSettings { Site = Station }, finished, CancellationToken.None, most);
    }
}
