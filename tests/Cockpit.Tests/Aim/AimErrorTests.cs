using Cockpit.Core.Aim;
using Cockpit.Core.Chance;
using Cockpit.Core.Units;
using CsCheck;

namespace Cockpit.Tests.Aim;

public sealed class AimErrorTests
{
    private static readonly Gen<(double Az, double El)> Anywhere = Gen.Select(Gen.Double[0, 360], Gen.Double[-5, 89.9]);

    [Theory]
    [InlineData(100, 30, 104, 30, 3.465, 0.060, 4.0, 0.0)] // near: right = pan times cos 30
    [InlineData(359, 20, 1, 21, 1.867, 1.011, 2.0, 1.0)] // across north the short way
    [InlineData(1, 20, 359, 19, -1.891, -0.989, -2.0, -1.0)]
    [InlineData(0, 85, 90, 85, 5.0064, 4.9873, 90.0, 0.0)] // overhead: the head only pans, the sky says right and up
    [InlineData(0, 85, 180, 85, 0.0, 10.0, 180.0, 0.0)] // over the top
    [InlineData(10, 40, 10, 33, 0.0, -7.0, 0.0, -7.0)]
    public void A_move_is_told_in_the_dishs_frame_and_at_the_head(
        double dishAz, double dishEl, double az, double el, double right, double up, double pan, double tilt)
    {
        AimError error = Between(dishAz, dishEl, az, el);
        Assert.Equal(right, error.Right.Degrees, 0.002);
        Assert.Equal(up, error.Up.Degrees, 0.002);
        Assert.Equal(pan, error.Pan.Degrees, 1e-9);
        Assert.Equal(tilt, error.Tilt.Degrees, 1e-9);
    }

    [Theory]
    [InlineData(10, 190)]
    [InlineData(190, 10)]
    [InlineData(0, 180)]
    public void A_half_turn_of_the_head_goes_to_the_right(double dish, double target)
    {
        AimError error = AimErrors.Between(Angle.FromDegrees(dish), Angle.FromDegrees(20), Angle.FromDegrees(target), Angle.FromDegrees(20));
        Assert.Equal(180.0, error.Pan.Degrees, 1e-9);
    }

    [Fact]
    public void The_total_is_the_angle_between_the_directions() =>
        Gen.Select(Anywhere, Anywhere).Sample(pair =>
        {
            (double Az, double El) d = pair.Item1;
            (double Az, double El) t = pair.Item2;
            double cos = (Sin(d.El) * Sin(t.El)) + (Cos(d.El) * Cos(t.El) * Cos(t.Az - d.Az));
            double angle = Math.Acos(Math.Clamp(cos, -1, 1)) * 180 / Math.PI;
            return Math.Abs(Between(d.Az, d.El, t.Az, t.El).Total.Degrees - angle) < 1e-5;
        });

    [Fact]
    public void Making_the_move_ends_on_the_target() =>
        Gen.Select(Anywhere, Anywhere).Sample(pair =>
        {
            ((double dishAz, double dishEl), (double az, double el)) = pair;
            AimError error = Between(dishAz, dishEl, az, el);
            (Angle a, Angle e) = AimErrors.Moved(Angle.FromDegrees(dishAz), Angle.FromDegrees(dishEl), error.Right, error.Up);
            return AimErrors.Separation(a, e, Angle.FromDegrees(az), Angle.FromDegrees(el)).Degrees < 1e-6;
        });

    // The sense of the move, found from the directions themselves: a small step that way must lead nearer.
    [Theory]
    [InlineData(0.0)]
    [InlineData(359.0)]
    [InlineData(180.0)]
    public void A_hundred_errors_have_the_right_sign_across_north_and_at_85_degrees(double dishAz)
    {
        Xoshiro256 chance = new(17);
        for (int i = 0; i < 100; i++)
        {
            double dishEl = i % 2 == 0 ? 85.0 : 5.0 + (75.0 * chance.NextUnit());
            (Angle az, Angle el) = (Angle.FromDegrees(dishAz), Angle.FromDegrees(dishEl));
            Angle right = Angle.FromDegrees((chance.NextUnit() - 0.5) * 20);
            Angle up = Angle.FromDegrees((chance.NextUnit() - 0.5) * 8);
            (Angle targetAz, Angle targetEl) = AimErrors.Moved(az, el, right, up);
            AimError error = AimErrors.Between(az, el, targetAz, targetEl);
            Assert.Equal(right.Degrees, error.Right.Degrees, 1e-7);
            Assert.Equal(up.Degrees, error.Up.Degrees, 1e-7);
            Assert.Equal(Math.Sign(right.Degrees), Math.Sign(error.Pan.Degrees));
            Angle bit = Angle.FromDegrees(0.01 * Math.Sign(error.Pan.Degrees));
            Assert.True(AimErrors.Separation(az + bit, el, targetAz, targetEl) < AimErrors.Separation(az, el, targetAz, targetEl));
        }
    }

    // Right and left seen from behind: facing south, west is on the right hand.
    [Fact]
    public void Facing_south_a_target_in_the_west_is_on_the_right()
    {
        AimError error = Between(180, 20, 200, 20);
        Assert.True(error.Right.Degrees > 0 && error.Pan.Degrees > 0);
    }

    [Fact]
    public void Exactly_behind_is_half_a_turn_and_not_a_number_that_is_none()
    {
        AimError error = Between(0, 0, 180, 0);
        Assert.Equal(180.0, error.Total.Degrees, 1e-6);
        Assert.True(double.IsFinite(error.Right.Degrees) && double.IsFinite(error.Up.Degrees));
    }

    // ITU-R F.699-8, recommends 2.1: main lobe 2.5e-3 (D/lambda phi)^2 dB (from memory); 0.8 m at 1.7 GHz is 4.54 wavelengths.
    [Fact]
    public void The_beam_follows_the_parabola_of_the_recommendation_within_a_twentieth()
    {
        Beam beam = Beam.Of(0.8, Frequency.FromMegahertz(1700));
        Assert.Equal(15.43, beam.HalfPowerWidth.Degrees, 0.005);
        double diameterInWaves = 0.8 / 0.176348;
        for (double phi = 1; phi < 10; phi++)
        {
            double recommended = 2.5e-3 * diameterInWaves * phi * diameterInWaves * phi;
            Assert.Equal(recommended, beam.LossAt(Angle.FromDegrees(phi)).Value, recommended * 0.05);
        }

        Assert.Equal(3.0, beam.LossAt(beam.HalfPowerWidth / 2).Value, 1e-12);
        Assert.Equal(20.0, beam.LossAt(Angle.FromDegrees(120)).Value);
        Assert.Equal(3.15, beam.RadiusFor(new Decibels(0.5)).Degrees, 0.005);
        Assert.Throws<ArgumentOutOfRangeException>(() => beam.RadiusFor(new Decibels(-1)));
        Assert.Throws<ArgumentOutOfRangeException>(() => Beam.Of(0, Frequency.FromMegahertz(1700)));
    }

    private static AimError Between(double dishAz, double dishEl, double az, double el) =>
        AimErrors.Between(Angle.FromDegrees(dishAz), Angle.FromDegrees(dishEl), Angle.FromDegrees(az), Angle.FromDegrees(el));

    private static double Sin(double degrees) => Math.Sin(degrees * Math.PI / 180);

    private static double Cos(double degrees) => Math.Cos(degrees * Math.PI / 180);
}
