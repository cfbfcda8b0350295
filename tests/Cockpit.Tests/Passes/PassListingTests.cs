using System.Collections.Immutable;
using Cockpit.Commands;
using Cockpit.Core.Formats;
using Cockpit.Core.Geo;
using Cockpit.Core.Orbit;
using Cockpit.Core.Units;
using Cockpit.Core.Verdicts;
using Cockpit.Planning;

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

    // Nine sets of the same orbit rise together, so that what is told of each depends on passes that are still to come.
    [Theory]
    [InlineData(2)]
    [InlineData(7)]
    [InlineData(500)]
    public void However_the_span_is_cut_the_list_and_its_clashes_are_the_same(int slices)
    {
        ImmutableArray<Sgp4> satellites = [.. Satellites(), .. Enumerable.Range(1, 9).Select(k => new Sgp4(Satellites()[0].Elements with { CatalogNumber = 90000 + k }))];
        PassVerdict[] whole = Told(Stream(satellites, 1));
        PassStream cut = Stream(satellites, slices);
        PassVerdict[] told = Told(cut);
        Assert.True(whole.Count(verdict => verdict.FurtherClashes > 0) > 20);
        Assert.Equal(whole.Select(Shown), told.Select(Shown));
    }

    [Fact]
    public void Of_a_long_list_only_what_may_still_clash_is_held()
    {
        PassStream cut = new(Satellites(), Question, new VerdictSettings { Site = Station }, slices: 48, most: 9);
        Assert.True(Told(cut).Length > 20);
    }

    private static PassQuestion Question { get; } = new(Station, Midnight, Midnight.AddDays(1), Angle.FromDegrees(5), null, 0.0, Refraction: false);

    private static PassStream Stream(ImmutableArray<Sgp4> satellites, int slices) => new(satellites, Question, new VerdictSettings { Site = Station }, slices: slices);

    private static string Shown(PassVerdict verdict) => string.Join('|', VerdictCells.Of(verdict).Select(cell => cell.Text)) + $"|{verdict.Candidate.CatalogNumber}|{verdict.Pass.Aos.Utc.UtcTicks}|{verdict.Pass.Los.Utc.UtcTicks}";

    private static PassVerdict[] Told(PassStream stream)
    {
        List<PassVerdict> told = [];
        while (!stream.IsDone)
        {
            Assert.True(stream.Next(_ => { }, CancellationToken.None).Try(out ImmutableArray<PassVerdict> some, out ParseError? error), error?.ToString());
            told.AddRange(some);
        }

        return [.. told];
    }

    private static ImmutableArray<Sgp4> Satellites()
    {
        Assert.True(SatelliteChoice.Read(ReferenceFiles.PathOf("satellites.tle"), [], TextWriter.Null).Try(out ImmutableArray<Sgp4> satellites, out ParseError? error), error?.ToString());
        return satellites;
    }

    private static Parsed<ImmutableArray<PassVerdict>> Judged(ImmutableArray<Sgp4> satellites, int most, Action<int> finished)
    {
        return PassListing.All(Stream(satellites, 1), finished, CancellationToken.None, most);
    }
}
