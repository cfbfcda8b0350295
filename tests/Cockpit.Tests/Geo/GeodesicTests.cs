using Cockpit.Core.Geo;
using Cockpit.Core.Units;
using CsCheck;

namespace Cockpit.Tests.Geo;

public sealed class GeodesicTests
{
    private static Site At(double latitude, double longitude) => new(Angle.FromDegrees(latitude), Angle.FromDegrees(longitude), 0.0);

    private static readonly Gen<Site> Sites = Gen.Select(Gen.Double[-90, 90], Gen.Double[-180, 180], At);

    // The quarter meridian of WGS 84: 10 001 965.7293 m, from memory; the reference tables hold the sources.
    [Fact]
    public void A_quarter_of_the_meridian_has_its_published_length()
    {
        var line = Geodesic.Between(At(0, 11), At(90, 11));
        Assert.Equal(10001965.7293, line.DistanceMetres, 0.0001);
        Assert.Equal(0.0, line.Azimuth.Degrees, 1e-9);
    }

    [Fact]
    public void Along_the_equator_it_is_a_circle_until_the_way_over_the_poles_is_shorter()
    {
        Assert.Equal(6378137.0 * Math.PI / 2, Geodesic.Between(At(0, -20), At(0, 70)).DistanceMetres, 1e-6);
        Assert.Equal(90.0, Geodesic.Between(At(0, -20), At(0, 70)).Azimuth.Degrees, 1e-9);
        Assert.Equal(270.0, Geodesic.Between(At(0, 70), At(0, -20)).Azimuth.Degrees, 1e-9);
        Assert.Equal(2 * 10001965.7293, Geodesic.Between(At(0, 0), At(0, 180)).DistanceMetres, 0.0002);
    }

    [Fact]
    public void There_and_back_are_equally_long() =>
        Gen.Select(Sites, Sites).Sample(
            (a, b) => Math.Abs(Geodesic.Between(a, b).DistanceMetres - Geodesic.Between(b, a).DistanceMetres) < 1e-5, iter: 2000);

    [Fact]
    public void No_way_is_shorter_than_the_chord_nor_longer_than_half_the_earth() =>
        Gen.Select(Sites, Sites).Sample(
            (a, b) =>
            {
                double metres = Geodesic.Between(a, b).DistanceMetres;
                EcefPosition p = EcefPosition.FromSite(a);
                EcefPosition q = EcefPosition.FromSite(b);
                double chord = new EcefPosition(p.X - q.X, p.Y - q.Y, p.Z - q.Z).RadiusKm * 1e3;
                return metres >= chord - 1e-5 && metres <= 20003931.5;
            },
            iter: 2000);

    // On a plane as small as a field the azimuth is that of the horizontal vector.
    [Fact]
    public void Over_a_few_hundred_metres_it_is_the_azimuth_that_the_station_sees() =>
        Gen.Select(Gen.Double[-80, 80], Gen.Double[-180, 180], Gen.Double[0, 360], Gen.Double[20, 300]).Sample(
            (latitude, longitude, azimuth, metres) =>
            {
                var frame = new StationFrame(At(latitude, longitude));
                (double sine, double cosine) = Math.SinCos(azimuth * Math.PI / 180.0);
                Site there = frame.FromEnu(sine * metres / 1e3, cosine * metres / 1e3, 0.0).ToSite();
                var line = Geodesic.Between(frame.Site, there with { HeightMetres = 0.0 });
                return Math.Abs(Math.IEEERemainder(line.Azimuth.Degrees - azimuth, 360.0)) < 1e-4 && Math.Abs(line.DistanceMetres - metres) < 0.001;
            },
            iter: 1000);

    // Beside the equator the line leaves almost eastward: how nearly is lost when azimuths are counted from north.
    [Theory]
    [InlineData(1e-300)]
    [InlineData(1e-27)]
    [InlineData(1e-15)]
    [InlineData(1e-9)]
    [InlineData(1e-6)]
    public void Beside_the_equator_it_is_as_long_as_on_it(double latitude)
    {
        double metres = 6378137.0 * Math.PI / 180.0;
        Assert.Equal(metres, Geodesic.Between(At(latitude, 10), At(latitude, 11)).DistanceMetres, 1e-4);
        Assert.Equal(50 * metres, Geodesic.Between(At(-latitude, 10), At(latitude, 60)).DistanceMetres, 1e-4);
        Assert.Equal(90.0, Geodesic.Between(At(latitude, 10), At(latitude, 11)).Azimuth.Degrees, 1e-5);
    }

    [Fact]
    public void A_place_is_no_way_from_itself() => Sites.Sample(site => Geodesic.Between(site, site).DistanceMetres == 0.0, iter: 500);
}
