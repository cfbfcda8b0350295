using Cockpit.Core.Passes;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;

namespace Cockpit.Tests.Frames;

/// <summary>Orbits with hours above the horizon: the search must not depend on low ones.</summary>
public sealed class HighOrbitPassTests
{
    private static readonly DateTimeOffset From = Orbits.Epoch.AddHours(3);

    private static Angle Degrees(double degrees) => Angle.FromDegrees(degrees);

    [Fact]
    public void A_geostationary_satellite_never_sets_and_is_one_pass_cut_at_both_ends()
    {
        SatelliteTrack track = AboveTheEquator(10);
        foreach (Pass pass in PassSearch.Find(track, From, From.AddDays(3), Degrees(5)).Concat(PassSearch.Overlapping(track, From, From.AddDays(3), Degrees(5))))
        {
            Assert.Equal((true, true), (pass.CutAtStart, pass.CutAtEnd));
            Assert.Equal((From, From.AddDays(3)), (pass.Aos.Utc, pass.Los.Utc));
        }

        Pass running = PassSearch.Next(track, From, 2, Degrees(5))!;
        Assert.Equal((From, From.AddDays(2), true), (running.Aos.Utc, running.Los.Utc, running.CutAtStart));
    }

    [Fact]
    public void A_geostationary_satellite_behind_the_earth_never_rises() =>
        Assert.Empty(PassSearch.Find(AboveTheEquator(190), From, From.AddDays(3), Degrees(0)));

    // Half-day orbit of high eccentricity: the long way, a look a minute, must see the same passes.
    [Theory]
    [InlineData(47.8, 11.2)]
    [InlineData(8.0, 20.0)]
    [InlineData(70.9, 25.8)]
    public void An_eccentric_half_day_orbit_is_found_as_sampling_finds_it(double latitude, double longitude)
    {
        var track = new SatelliteTrack(Orbits.Of(2.006, 63.4, 0.72, node: 80, perigee: 270), Orbits.Site(latitude, longitude));
        Pass[] passes = [.. PassSearch.Find(track, From, From.AddDays(3), Degrees(3))];
        for (DateTimeOffset at = From; at < From.AddDays(3); at = at.AddMinutes(1))
        {
            double height = track.At(at)!.Value.Elevation.Degrees - 3;
            Assert.True(Math.Abs(height) < 1e-6 || height > 0 == passes.Any(pass => at >= pass.Aos.Utc && at <= pass.Los.Utc), $"{at:O} {height}");
        }

        Assert.All(passes, pass => Assert.True(pass.Tca.Look.Elevation >= pass.Aos.Look.Elevation && pass.Tca.Look.Elevation >= pass.Los.Look.Elevation));
        Assert.NotEmpty(passes);
    }

    // The right ascension that puts a satellite of one sidereal day over a longitude at the epoch is that of the meridian.
    private static SatelliteTrack AboveTheEquator(double longitude)
    {
        Angle meridian = (Core.Time.SiderealTime.Greenwich(Core.Time.JulianDate.FromUtc(Orbits.Epoch)) + Degrees(longitude)).WrappedToTurn();
        return new SatelliteTrack(Orbits.Of(1.00273791, 0.05, 0.0002, anomaly: meridian.Degrees, bStar: 0), Orbits.Site(30, 10));
    }
}
