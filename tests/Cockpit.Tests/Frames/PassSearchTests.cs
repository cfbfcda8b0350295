using Cockpit.Core.Geo;
using Cockpit.Core.Passes;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;
using CsCheck;

namespace Cockpit.Tests.Frames;

public sealed class PassSearchTests
{
    private static readonly DateTimeOffset From = Orbits.Epoch.AddHours(3);
    private static readonly DateTimeOffset To = From.AddDays(1);

    private static readonly Gen<HorizonMask> Masks = Gen.Select(Gen.Int[0, 719], Gen.Double[-1, 40])
        .Array[2, 10]
        .Select(points => new HorizonMask(points.DistinctBy(p => p.Item1).Select(p => new HorizonPoint(Angle.FromDegrees(0.5 * p.Item1), Angle.FromDegrees(p.Item2)))));

    // Instants are whole ticks of 100 ns; on a slope of 8 degrees a degree that alone is worth 3e-7 degrees.
    private static readonly Gen<HorizonMask> GentleMasks = Gen.Select(Gen.Int[0, 71], Gen.Double[-1, 40])
        .Array[2, 10]
        .Select(points => new HorizonMask(points.DistinctBy(p => p.Item1).Select(p => new HorizonPoint(Angle.FromDegrees(5 * p.Item1), Angle.FromDegrees(p.Item2)))));

    private static Angle Degrees(double degrees) => Angle.FromDegrees(degrees);

    [Fact]
    public void Elevation_at_rise_and_set_equals_the_mask_to_a_millionth_of_a_degree() =>
        Gen.Select(Orbits.Low, Orbits.Sites, GentleMasks).Sample((satellite, site, mask) =>
        {
            var track = new SatelliteTrack(satellite, site);
            foreach (Pass pass in PassSearch.Find(track, From, To, Degrees(2), mask))
            {
                double Above(PassMoment m) => Math.Max(mask.At(m.Look.Azimuth).Degrees, 2) - m.Look.Elevation.Degrees;
                Assert.True(pass.CutAtStart || Math.Abs(Above(pass.Aos)) < 1e-6, $"rise is {Above(pass.Aos)} below the mask");
                Assert.True(pass.CutAtEnd || Math.Abs(Above(pass.Los)) < 1e-6, $"set is {Above(pass.Los)} below the mask");
            }
        }, iter: 60);

    [Fact]
    public void The_culmination_is_the_highest_moment_and_passes_do_not_overlap() =>
        Gen.Select(Orbits.Low, Orbits.Sites, Gen.Double[-1, 30]).Sample((satellite, site, above) =>
        {
            var track = new SatelliteTrack(satellite, site);
            DateTimeOffset last = From.AddTicks(-1);
            foreach (Pass pass in PassSearch.Find(track, From, To, Degrees(above)))
            {
                Assert.True(pass.Aos.Utc > last && pass.Aos.Utc <= pass.Tca.Utc && pass.Tca.Utc <= pass.Los.Utc);
                for (int k = 0; k <= 50; k++)
                {
                    DateTimeOffset at = pass.Aos.Utc + (pass.Duration * (k / 50.0));
                    // The top is where the theory's velocity says so, which is not the exact derivative of its position: some 1e-9 degrees beside it.
                    Assert.True(track.At(at)!.Value.Elevation.Degrees <= pass.Tca.Look.Elevation.Degrees + 2e-8);
                    Assert.True(track.At(at)!.Value.Elevation.Degrees >= above - 1e-6);
                }

                last = pass.Los.Utc;
            }
        }, iter: 100);

    // The long way: one look every ten seconds. Whatever it sees above the limit must lie in a pass, and nothing else.
    [Fact]
    public void Sampling_every_ten_seconds_sees_the_same_passes() =>
        Gen.Select(Orbits.Low, Orbits.Sites, Gen.Double[-1, 30]).Sample((satellite, site, above) =>
        {
            var track = new SatelliteTrack(satellite, site);
            Pass[] passes = [.. PassSearch.Find(track, From, To, Degrees(above))];
            for (DateTimeOffset at = From; at < To; at = at.AddSeconds(10))
            {
                double height = track.At(at)!.Value.Elevation.Degrees - above;
                bool inside = passes.Any(pass => at >= pass.Aos.Utc && at <= pass.Los.Utc);
                Assert.True(Math.Abs(height) < 1e-6 || inside == height > 0, $"{at:O}: {height} degrees above the limit, in a pass: {inside}");
            }
        }, iter: 12);

    [Fact]
    public void Sampling_every_second_sees_the_same_gaps_of_a_mask() =>
        Gen.Select(Orbits.Low, Orbits.Sites, Masks).Sample((satellite, site, mask) =>
        {
            var track = new SatelliteTrack(satellite, site);
            Pass[] passes = [.. PassSearch.Find(track, From, From.AddHours(4), Degrees(-5), mask)];
            for (DateTimeOffset at = From; at < From.AddHours(4); at = at.AddSeconds(1))
            {
                LookAngles look = track.At(at)!.Value;
                double height = (look.Elevation - mask.At(look.Azimuth)).Degrees;
                bool inside = passes.Any(pass => at >= pass.Aos.Utc && at <= pass.Los.Utc);
                Assert.True(Math.Abs(height) < 1e-6 || inside == height > 0, $"{at:O}: {height} degrees above the mask, in a pass: {inside}");
            }
        }, iter: 6);

    [Fact]
    public void A_station_and_its_antipode_never_see_the_same_satellite_at_once() =>
        Gen.Select(Orbits.Low, Orbits.Sites).Sample((satellite, site) =>
        {
            Site antipode = site with { Latitude = -site.Latitude, Longitude = (site.Longitude + Degrees(180)).WrappedToHalfTurn() };
            Pass[] here = [.. PassSearch.Find(new SatelliteTrack(satellite, site), From, To, Degrees(0))];
            Pass[] there = [.. PassSearch.Find(new SatelliteTrack(satellite, antipode), From, To, Degrees(0))];
            return here.All(a => there.All(b => a.Los.Utc < b.Aos.Utc || b.Los.Utc < a.Aos.Utc));
        }, iter: 100);

    [Fact]
    public void Near_misses_of_the_published_table_are_not_passes()
    {
        // tests/data/reference/03_passes/README.md names them.
        Assert.Empty(Around("MARLSNIPE 1", "HIGHNORTH", new DateTimeOffset(2026, 11, 26, 1, 59, 34, TimeSpan.Zero), 0));
        Assert.Empty(Around("SALTERN 4", "LOWLAND", new DateTimeOffset(2026, 11, 27, 19, 8, 55, TimeSpan.Zero), 0));
        Assert.Empty(Around("DUNLARK 6", "HIGHNORTH", new DateTimeOffset(2026, 11, 25, 0, 11, 13, TimeSpan.Zero), 5));
        Assert.Single(Around("MARLSNIPE 1", "HIGHNORTH", new DateTimeOffset(2026, 11, 26, 1, 59, 34, TimeSpan.Zero), -0.02));
    }

    private static Pass[] Around(string satellite, string station, DateTimeOffset at, double above) =>
        [.. PassSearch.Find(Scene.Track(satellite, station), at.AddMinutes(-15), at.AddMinutes(15), Degrees(above))];

    private static readonly Checks.ReferenceScene Scene = new(
        File.ReadAllText(ReferenceFiles.PathOf("satellites.tle")), File.ReadAllText(ReferenceFiles.PathOf("stations.json")));

    [Fact]
    public void A_running_pass_is_cut_by_find_and_whole_in_next_and_overlapping()
    {
        SatelliteTrack track = Scene.Track("BRACKWING 5", "LOWLAND");
        Pass whole = PassSearch.Next(track, new DateTimeOffset(2026, 11, 26, 17, 0, 0, TimeSpan.Zero), 10, Degrees(0))!;
        DateTimeOffset middle = whole.Tca.Utc.AddSeconds(30);

        Pass cut = PassSearch.Find(track, middle, middle.AddMinutes(2), Degrees(0)).Single();
        Assert.True(cut.CutAtStart && cut.CutAtEnd);
        Assert.Equal((middle, middle, middle.AddMinutes(2)), (cut.Aos.Utc, cut.Tca.Utc, cut.Los.Utc));

        foreach (Pass again in new[] { PassSearch.Next(track, middle, 10, Degrees(0))!, PassSearch.Overlapping(track, middle, middle.AddMinutes(2), Degrees(0)).Single() })
        {
            Assert.False(again.CutAtStart || again.CutAtEnd);
            Assert.Equal(0, (again.Aos.Utc - whole.Aos.Utc).TotalSeconds, 1e-4);
            Assert.Equal(0, (again.Tca.Utc - whole.Tca.Utc).TotalSeconds, 1e-3);
            Assert.Equal(0, (again.Los.Utc - whole.Los.Utc).TotalSeconds, 1e-4);
        }
    }

    [Fact]
    public void A_satellite_that_never_rises_gives_nothing()
    {
        var track = new SatelliteTrack(Orbits.Of(14.2, 20), Orbits.Site(80, 10));
        Assert.Empty(PassSearch.Find(track, From, From.AddDays(10), Degrees(0)));
        Assert.Null(PassSearch.Next(track, From, 10, Degrees(0)));
    }

    // At the pole a polar satellite passes every revolution, and through the zenith.
    [Theory]
    [InlineData(90.0)]
    [InlineData(-90.0)]
    public void At_a_pole_every_revolution_of_a_polar_orbit_is_a_pass(double latitude)
    {
        Pass[] passes = [.. PassSearch.Find(new SatelliteTrack(Orbits.Of(14.2, 90), Orbits.Site(latitude, 0)), From, To, Degrees(0))];
        Assert.InRange(passes.Length, 14, 15);
        Assert.All(passes.Where(p => !p.CutAtStart && !p.CutAtEnd), pass => Assert.True(pass.Tca.Look.Elevation.Degrees > 89.5));
    }

    // An orbit as high as near-earth theory goes, over the equator: hours above the horizon at a time.
    [Fact]
    public void A_high_slow_orbit_has_long_passes()
    {
        Pass[] passes = [.. PassSearch.Find(new SatelliteTrack(Orbits.Of(6.5, 0.01), Orbits.Site(0, 0)), From, To, Degrees(10))];
        Assert.Equal(6, passes.Length, 1.0);
        Assert.All(passes, pass => Assert.True(pass.Duration < TimeSpan.FromHours(2)));
    }

    [Fact]
    public void A_satellite_that_decays_during_the_search_ends_it_without_fuss()
    {
        var track = new SatelliteTrack(Orbits.Of(16.4, 51, bStar: 0.02), Orbits.Site(47.8, 11.2));
        Assert.All(PassSearch.Find(track, Orbits.Epoch, Orbits.Epoch.AddDays(30), Degrees(0)), pass => Assert.True(pass.Los.Utc >= pass.Aos.Utc));
        Assert.Null(track.At(Orbits.Epoch.AddDays(30)));
    }

    [Fact]
    public void A_mast_in_the_way_makes_two_passes_of_one_and_a_gap_between_trees_makes_one()
    {
        SatelliteTrack track = Scene.Track("BRACKWING 5", "LOWLAND");
        Pass whole = PassSearch.Find(track, From, To.AddDays(2), Degrees(0)).First(p => p.Tca.Look.Elevation.Degrees is > 25 and < 50);
        DateTimeOffset from = whole.Aos.Utc.AddMinutes(-5);
        double top = whole.Tca.Look.Azimuth.Degrees;
        HorizonMask mast = Geo.HorizonMaskTests.Mask([(top - 3, 0), (top, 60), (top + 3, 0)]);
        Assert.Equal(2, PassSearch.Find(track, from, from.AddMinutes(30), Degrees(0), mast).Count());

        HorizonMask gap = Geo.HorizonMaskTests.Mask([(top - 0.2, 89), (top, 0), (top + 0.2, 89)]);
        Pass through = Assert.Single(PassSearch.Find(track, from, from.AddMinutes(30), Degrees(0), gap));
        Assert.InRange(through.Duration.TotalSeconds, 0.01, 5);
    }

    [Fact]
    public void A_search_that_cannot_be_meant_is_refused()
    {
        SatelliteTrack track = Scene.Track("BRACKWING 5", "LOWLAND");
        Assert.Throws<ArgumentException>(() => PassSearch.Find(track, To, From, Degrees(0)));
        Assert.Throws<ArgumentException>(() => PassSearch.Find(track, From, To, Degrees(90)));
        Assert.Throws<ArgumentOutOfRangeException>(() => new SatelliteTrack(track.Satellite, track.Station, 2));
    }
}
