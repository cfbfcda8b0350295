using Cockpit.Core.Units;
using CsCheck;

namespace Cockpit.Tests;

public sealed class AngleTests
{
    [Theory]
    [InlineData(359.0, 1.0, 2.0)]
    [InlineData(1.0, 359.0, -2.0)]
    [InlineData(90.0, 270.0, -180.0)]
    public void A_difference_across_north_takes_the_short_way(double from, double to, double expected)
    {
        Angle difference = (Angle.FromDegrees(to) - Angle.FromDegrees(from)).WrappedToHalfTurn();
        Assert.Equal(expected, difference.Degrees, 1e-12);
    }

    [Fact]
    public void Wrapping_keeps_the_direction_and_stays_in_range() =>
        Gen.Double[-1e4, 1e4].Sample(degrees =>
        {
            Angle angle = Angle.FromDegrees(degrees);
            Angle turn = angle.WrappedToTurn();
            Angle half = angle.WrappedToHalfTurn();
            return turn.Radians is >= 0 and < Math.Tau && half.Radians is >= -Math.PI and < Math.PI
                && Math.Abs(turn.Sin() - angle.Sin()) < 1e-9 && Math.Abs(half.Cos() - angle.Cos()) < 1e-9;
        });
}
