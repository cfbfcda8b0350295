using Cockpit.Core.Geo;
using Cockpit.Core.Units;

namespace Cockpit.Tests.Geo;

public sealed class ScanLineTests
{
    // 820 km over longitude 0 on the equator, northward at 7.4 km/s.
    private static readonly ScanLine Northward = new(new EcefState(6378.137 + 820.0, 0, 0, 0, 0, 7.4));

    [Fact]
    public void Straight_down_is_the_sub_satellite_point()
    {
        Assert.Equal(Northward.SubPoint, Northward.At(Angle.Zero));
        Assert.Equal(820.0, Northward.HeightKm, 1e-9);
    }

    // The law of sines in the triangle of satellite, earth's centre and edge; a sphere of the equator's radius serves to 0.1 degrees.
    [Fact]
    public void Left_is_west_when_it_flies_north_and_as_far_as_a_sphere_says()
    {
        double centre = (Math.Asin((6378.137 + 820.0) / 6378.137 * Math.Sin(55.4 * Math.PI / 180)) * 180 / Math.PI) - 55.4;
        Assert.Equal(-centre, Northward.At(-ScanLine.UsualHalfAngle)!.Value.Longitude.Degrees, 0.3);
        Assert.Equal(centre, Northward.At(ScanLine.UsualHalfAngle)!.Value.Longitude.Degrees, 0.3);
    }

    [Fact]
    public void A_look_past_the_earth_hits_nothing()
    {
        Assert.Null(Northward.At(Angle.FromDegrees(70)));
        Assert.Null(Northward.At(Angle.FromDegrees(-70)));
        Assert.NotNull(Northward.At(Angle.FromDegrees(62)));
    }
}
