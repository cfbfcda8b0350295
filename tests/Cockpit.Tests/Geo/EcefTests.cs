using Cockpit.Core.Geo;
using Cockpit.Core.Time;
using Cockpit.Core.Units;
using CsCheck;

namespace Cockpit.Tests.Geo;

public sealed class EcefTests
{
    // ERFA gd2gc with WGS 84 (the IAU SOFA algorithm), pyerfa 2.0.0; the file's README allows 1e-5 m.
    [Fact]
    public void Sites_and_earth_fixed_points_match_the_IAU_SOFA_values_both_ways()
    {
        foreach (CsvRow row in ReferenceFiles.Csv("08_geodesy/geodetic_ecef.csv"))
        {
            var site = new Site(Angle.FromDegrees(row.Number("lat_deg")), Angle.FromDegrees(row.Number("lon_deg")), row.Number("h_m"));
            var published = new EcefPosition(row.Number("x_m") / 1000, row.Number("y_m") / 1000, row.Number("z_m") / 1000);
            EcefPosition got = EcefPosition.FromSite(site);
            Assert.Equal(published.X, got.X, 1e-8);
            Assert.Equal(published.Y, got.Y, 1e-8);
            Assert.Equal(published.Z, got.Z, 1e-8);

            Site back = published.ToSite();
            Assert.Equal(site.Latitude.Degrees, back.Latitude.Degrees, 2e-10);
            Assert.Equal(site.HeightMetres, back.HeightMetres, 1e-5);
            if (Math.Abs(site.Latitude.Degrees) < 90)
            {
                Assert.Equal(site.Longitude.Degrees, back.Longitude.Degrees, 1e-9);
            }
        }
    }

    // D. Vallado, Fundamentals of Astrodynamics and Applications, example 3-3 (printed to 1 m and 1e-6 degrees).
    [Fact]
    public void An_earth_fixed_point_matches_Vallado_example_3_3()
    {
        Site site = new EcefPosition(6524.834, 6862.875, 6448.296).ToSite();
        Assert.Equal(34.352496, site.Latitude.Degrees, 1e-5);
        Assert.Equal(46.4464, site.Longitude.Degrees, 5e-5);
        Assert.Equal(5085.22, site.HeightMetres / 1000, 0.01);
    }

    // AIAA 2006-6753 (Vallado, Crawford, Hujsak, Kelso), appendix C: 2004 April 6, 07:51:28.386009 UTC, UT1-UTC -0.4399619 s.
    [Fact]
    public void The_way_from_TEME_to_the_earth_matches_the_example_of_AIAA_2006_6753()
    {
        JulianDate ut1 = JulianDate.FromUtc(new DateTimeOffset(2004, 4, 6, 7, 51, 28, TimeSpan.Zero)).AddSeconds(0.386009 - 0.4399619);
        var teme = new TemeState(5094.18016210, 6127.64465950, 6380.34453270, -4.746131487, 0.785818041, 5.531931288);
        EcefState got = EcefState.FromTeme(teme, SiderealTime.Greenwich(ut1));
        Assert.Equal(-1033.47503120, got.X, 2e-5);
        Assert.Equal(7901.30558560, got.Y, 2e-5);
        Assert.Equal(6380.34453270, got.Z, 2e-5);
        Assert.Equal(-3.2256327470, got.Vx, 1e-7);
        Assert.Equal(-2.8724425110, got.Vy, 1e-7);
        Assert.Equal(5.5319312880, got.Vz, 1e-7);
    }

    [Fact]
    public void A_site_comes_back_from_the_earth_fixed_point() =>
        Gen.Select(Gen.Double[-90, 90], Gen.Double[-180, 180], Gen.Double[-10_000, 40_000_000]).Sample((latitude, longitude, height) =>
        {
            Site back = EcefPosition.FromSite(new Site(Angle.FromDegrees(latitude), Angle.FromDegrees(longitude), height)).ToSite();
            double aside = (back.Longitude.Degrees - longitude) * Math.Cos(back.Latitude.Radians);
            return Math.Abs(back.Latitude.Degrees - latitude) < 1e-11 && Math.Abs(aside) < 1e-11 && Math.Abs(back.HeightMetres - height) < 1e-6;
        });

    [Fact]
    public void The_centre_of_the_earth_has_no_latitude() =>
        Assert.Throws<InvalidOperationException>(() => default(EcefPosition).ToSite());

    [Fact]
    public void A_point_straight_above_the_station_is_at_the_zenith_and_one_to_the_east_is_in_the_east()
    {
        var site = new Site(Angle.FromDegrees(47.8), Angle.FromDegrees(11.2), 520);
        var frame = new StationFrame(site);
        EcefPosition above = EcefPosition.FromSite(site with { HeightMetres = 800_520 });
        EnuState up = frame.ToEnu(new EcefState(above.X, above.Y, above.Z, 0, 0, 0));
        Assert.Equal(800.0, up.Up, 1e-9);
        Assert.Equal(90.0, Angle.FromRadians(up.ElevationRadians).Degrees, 1e-9);

        EcefPosition beside = EcefPosition.FromSite(site with { Longitude = Angle.FromDegrees(11.21) });
        EnuState east = frame.ToEnu(new EcefState(beside.X, beside.Y, beside.Z, 0, 0, 0));
        Assert.Equal(90.0, Angle.FromRadians(east.AzimuthRadians).Degrees, 0.01);
        Assert.True(east.Up < 0);
    }
}
