using Cockpit.Core.Geo;
using Cockpit.Core.Units;
using CsCheck;

namespace Cockpit.Tests.Geo;

public sealed class HorizonMaskTests
{
    private static readonly Gen<HorizonMask> Masks = Gen.Select(Gen.Int[0, 3599], Gen.Double[-5, 60])
        .Array[1, 12]
        .Select(points => Mask([.. points.DistinctBy(p => p.Item1).Select(p => (p.Item1 * 0.1, p.Item2))]));

    [Theory]
    [InlineData(200.0, 12.0)]
    [InlineData(220.0, 15.0)]
    [InlineData(270.0, 11.5)]
    [InlineData(300.0, 5.0)]
    [InlineData(70.0, 8.5)]
    [InlineData(0.0, 5 + (7 * 60 / 260.0))]
    [InlineData(360.0, 5 + (7 * 60 / 260.0))]
    [InlineData(-160.0, 12.0)]
    public void Lines_run_straight_between_points_and_through_north(double azimuth, double expected) =>
        Assert.Equal(expected, Mask([(300, 5), (200, 12), (240, 18)]).At(Angle.FromDegrees(azimuth)).Degrees, 1e-9);

    [Fact]
    public void One_point_makes_a_flat_horizon()
    {
        Assert.Equal(7.0, HorizonMask.Flat(Angle.FromDegrees(7)).At(Angle.FromDegrees(180)).Degrees, 1e-12);
        Assert.True(HorizonMask.Flat(Angle.FromDegrees(7)).IsFlat);
    }

    [Fact]
    public void A_mask_is_continuous_round_the_horizon() =>
        Gen.Select(Masks, Gen.Double[0, 360]).Sample((mask, azimuth) =>
        {
            double steepest = mask.Points.Length < 2 ? 0 : 65 / 0.1;
            double before = mask.At(Angle.FromDegrees(azimuth)).Degrees;
            double after = mask.At(Angle.FromDegrees(azimuth + 1e-6)).Degrees;
            return Math.Abs(after - before) <= (steepest * 1.001e-6) + 1e-9;
        });

    [Fact]
    public void A_raised_mask_is_the_higher_of_the_two_everywhere() =>
        Gen.Select(Masks, Gen.Double[-5, 60], Gen.Double[0, 360]).Sample((mask, least, azimuth) =>
        {
            HorizonMask raised = mask.RaisedTo(Angle.FromDegrees(least));
            double expected = Math.Max(least, mask.At(Angle.FromDegrees(azimuth)).Degrees);
            return Math.Abs(raised.At(Angle.FromDegrees(azimuth)).Degrees - expected) < 1e-6 && raised.Lowest.Degrees >= least - 1e-9;
        });

    [Fact]
    public void Impossible_masks_are_refused()
    {
        Assert.Throws<ArgumentException>(() => Mask([]));
        Assert.Throws<ArgumentException>(() => Mask([(10, 1), (370, 2)]));
        Assert.Throws<ArgumentException>(() => Mask([(10, 90)]));
        Assert.Throws<ArgumentException>(() => Mask([(10, double.NaN)]));
    }

    internal static HorizonMask Mask((double Azimuth, double Elevation)[] points) =>
        new(points.Select(p => new HorizonPoint(Angle.FromDegrees(p.Azimuth), Angle.FromDegrees(p.Elevation))));
}
