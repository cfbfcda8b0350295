using System.Collections.Immutable;
using Cockpit.Commands;
using Cockpit.Core.Formats;
using Cockpit.Core.Geo;
using Cockpit.Core.Link;
using Cockpit.Core.Orbit;
using Cockpit.Core.Units;
using Cockpit.Core.Verdicts;
using Cockpit.Planning;

namespace Cockpit.Tests.Planning;

/// <summary>Which passes are worth going out for.</summary>
public sealed class PassPlannerTests
{
    private static readonly DateTimeOffset Midnight = new(2026, 11, 25, 0, 0, 0, TimeSpan.Zero);
    private static readonly Site Station = new(Angle.FromDegrees(47.8), Angle.FromDegrees(11.2), 520);
    private static readonly PassQuestion Day = new(Station, Midnight, Midnight.AddDays(1), Angle.FromDegrees(5), null, 0.0, Refraction: false);

    private static ImmutableArray<Sgp4> Satellites()
    {
        Assert.True(SatelliteChoice.Read(ReferenceFiles.PathOf("satellites.tle"), [], TextWriter.Null).Try(out ImmutableArray<Sgp4> satellites, out ParseError? error), error?.ToString());
        return satellites;
    }

    private static PassesAhead Find(ImmutableArray<Sgp4> satellites, params ImmutableArray<Downlink> downlinks)
    {
        Assert.True(PassPlanner.Find(satellites, Day, new VerdictSettings { Site = Station }, downlinks).Try(out PassesAhead? ahead, out ParseError? error), error?.ToString());
        return ahead;
    }

    [Fact]
    public void The_best_come_first_and_what_is_too_weak_is_counted()
    {
        PassesAhead ahead = Find(Satellites());
        Assert.NotEmpty(ahead.Worth);
        Assert.DoesNotContain(ahead.Worth, one => one.Verdict.Word == VerdictWord.No);
        Assert.Equal(PassJudge.BestFirst(ahead.Worth.Select(one => one.Verdict)).Select(one => one.Score), ahead.Worth.Select(one => one.Verdict.Score));
        Assert.True(PassListing.All(new PassStream(Satellites(), Day, new VerdictSettings { Site = Station }), _ => { }, CancellationToken.None).Try(out ImmutableArray<PassVerdict> all, out _));
        Assert.Equal(all.Length, ahead.Worth.Length + ahead.Weak);
    }

    [Fact]
    public void Each_satellite_is_judged_with_its_own_downlink()
    {
        ImmutableArray<Sgp4> satellites = Satellites();
        ElementSet first = satellites[0].Elements;
        PassesAhead usual = Find(satellites);
        PassesAhead own = Find(satellites, new Downlink(first.Name.Trim(), Frequency.FromMegahertz(1707), Service.Qpsk2800k), new Downlink(first.Name.Trim(), Frequency.FromMegahertz(1698), null));
        PlannedPass before = usual.Worth.First(one => one.Elements == first);
        PlannedPass after = own.Worth.First(one => one.Pass == before.Pass);
        Assert.Equal(Service.Qpsk2800k, after.Link.Service);
        Assert.Equal(1707e6, after.Link.Carrier.Hertz);
        Assert.Equal([1707e6, 1698e6], after.Downlinks.Select(one => one.Carrier.Hertz));
        Assert.NotEqual(before.Verdict.MarginAtCulmination, after.Verdict.MarginAtCulmination);
        PlannedPass other = usual.Worth.First(one => one.Elements != first);
        Assert.Equal(other.Verdict.MarginAtCulmination, own.Worth.First(one => one.Pass == other.Pass).Verdict.MarginAtCulmination);
    }

    [Fact]
    public void The_next_one_is_the_earliest_that_is_good_enough()
    {
        PassesAhead ahead = Find(Satellites());
        PlannedPass? next = ahead.NextFrom(Midnight.AddHours(6));
        Assert.NotNull(next);
        Assert.True(next.Pass.Aos.Utc >= Midnight.AddHours(6) && next.Verdict.Word >= VerdictWord.Fair);
        Assert.DoesNotContain(ahead.Worth, one => one.Verdict.Word >= VerdictWord.Fair && one.Pass.Aos.Utc >= Midnight.AddHours(6) && one.Pass.Aos.Utc < next.Pass.Aos.Utc);
        Assert.Null(ahead.NextFrom(Midnight.AddDays(2)));
    }

    [Theory]
    [InlineData("PETREL 2=1701.3MHz,split-phase-665k", "PETREL 2", 1701.3e6, "split-phase-665k")]
    [InlineData("99101=1.7GHz", "99101", 1.7e9, null)]
    [InlineData("A=B=1700MHz", "A=B", 1.7e9, null)]
    public void A_downlink_is_read(string text, string satellite, double hertz, string? service)
    {
        Assert.True(Downlink.Read(text, "--downlink").Try(out Downlink? one, out ParseError? error), error?.ToString());
        Assert.Equal((satellite, hertz, service), (one.Satellite, one.Carrier.Hertz, one.Service?.Name));
    }

    [Theory]
    [InlineData("1701.3MHz", "is not a downlink; write SATELLITE=FREQ[,SERVICE]")]
    [InlineData("=1701.3MHz", "is not a downlink")]
    [InlineData("PETREL 2=1701.3", "is not a frequency")]
    [InlineData("PETREL 2=1701.3MHz,music", "'music' is not a service; choose split-phase-665k")]
    public void A_downlink_that_is_none_says_how_to_write_one(string text, string sentence) =>
        Assert.Contains(sentence, Downlink.Read(text, "--downlink").Error?.ToString(), StringComparison.Ordinal);
}
