using Cockpit.Core.Aim;
using System.Collections.Immutable;
using Cockpit.Checks;
using Cockpit.Core.Link;
using Cockpit.Core.Units;

namespace Cockpit.Tests.Link;

/// <summary>Textbook and ITU-R examples (10_link/published_examples.json gives the source of each) and the table made from the same definitions.</summary>
public sealed class LinkFormulaTests
{
    [Fact]
    public void Every_function_of_the_link_table_agrees_to_a_millionth()
    {
        ImmutableArray<TableCheck> checks = LinkTables.Compare(ReferenceFiles.Text("10_link/link_values.csv"));
        Assert.Equal(16, checks.Length);
        Assert.All(checks, check => Assert.True(check.Ok, check.ToString()));
    }

    [Fact]
    public void An_unknown_function_fails_instead_of_being_passed_over()
    {
        TableCheck check = Assert.Single(LinkTables.Compare("function,arguments_json,value\nwishful,\"[1]\",1\n"));
        Assert.False(check.Ok);
        Assert.False(new DifferenceTally("t", "q", 1, "dB").Result().Ok);
    }

    // ITU-R P.525-5: 32.4 + 20 log f(MHz) + 20 log d(km); 1700 MHz, 850 km -> 155.60 dB.
    [Fact]
    public void Free_space_loss_matches_P525_within_its_rounding()
    {
        Frequency carrier = Frequency.FromMegahertz(1700);
        Assert.Equal(155.60, PathLoss.FreeSpaceRounded(carrier, 850e3).Value, 0.005);
        Assert.Equal(155.645, PathLoss.FreeSpace(carrier, 850e3).Value, 0.001);
    }

    // G. Maral, M. Bousquet, Satellite Communications Systems, ch. 5, uplink example (from memory), tolerance 0.1 dB.
    [Fact]
    public void The_uplink_example_of_Maral_and_Bousquet_comes_out()
    {
        var carrier = new Frequency(14e9);
        Decibels transmit = Antenna.Gain(carrier, 4, 0.6);
        Assert.Equal(53.1, transmit.Value, 0.1);
        Decibels eirpDbw = transmit + Decibels.FromRatio(100);
        Assert.Equal(73.1, eirpDbw.Value, 0.1);
        Decibels loss = PathLoss.FreeSpace(carrier, 40000e3);
        Assert.Equal(207.4, loss.Value, 0.1);
        double satelliteDish = Antenna.BeamWidthFactorDegrees * carrier.WavelengthMetres / 2.0;
        Decibels receive = Antenna.Gain(carrier, satelliteDish, 0.55);
        Assert.Equal(38.2, receive.Value, 0.1);
        Assert.Equal(-96.1, (eirpDbw - loss + receive).Value, 0.1);
    }

    // The same book: depointing by half the beamwidth costs 3 dB, by a tenth 0.12 dB (from memory).
    [Theory]
    [InlineData(0.5, 3.0)]
    [InlineData(0.1, 0.12)]
    public void Pointing_loss_is_three_decibels_at_half_the_beamwidth(double share, double expected) =>
        Assert.Equal(expected, Antenna.PointingLoss(Angle.FromDegrees(share * 15), Angle.FromDegrees(15)).Value, 1e-9);

    // One pattern for the plan of a pass and for its guidance: 25 degrees off a 0.8 m dish (15.4 degrees wide) is on the floor of the side lobes.
    [Fact]
    public void Budget_and_beam_lose_the_same_beside_the_target()
    {
        Frequency carrier = Frequency.FromMegahertz(1700);
        Beam beam = Beam.Of(0.8, carrier);
        foreach (double degrees in new[] { 0.0, 2.5, 7.7, 15.0, 25.0, 90.0 })
        {
            LinkModel Model(double off) => new() { Carrier = carrier, Dish = new ReceivingDish { DiameterMetres = 0.8, PointingError = Angle.FromDegrees(off) } };
            double lost = (Model(0).ExpectedCarrierToNoiseDensity(Angle.FromDegrees(40), 1200) - Model(degrees).ExpectedCarrierToNoiseDensity(Angle.FromDegrees(40), 1200)).Value;
            Assert.Equal(beam.LossAt(Angle.FromDegrees(degrees)).Value, lost, 1e-9);
        }

        Assert.Equal(20.0, beam.LossAt(Angle.FromDegrees(25)).Value);
    }

    // D. Pozar, Microwave Engineering, example 10.2 (from memory): F = 1.80 = 2.55 dB, Te = 232 K; example 10.1: Te = 170 K.
    [Fact]
    public void Cascade_and_Y_factor_match_Pozar()
    {
        double factor = Noise.CascadeFactor([new(new(2), new(10)), new(new(1), new(-1)), new(new(4), new(-3))]);
        Assert.Equal(1.80, factor, 0.005);
        Assert.Equal(2.55, Decibels.FromRatio(factor).Value, 0.01);
        Assert.Equal(232, Noise.TemperatureKelvin(Decibels.FromRatio(factor)), 1.0);
        double te = Noise.FromYFactorKelvin(290, 77, new(2.7));
        Assert.Equal(170, te, 1.0);
        Assert.Equal(-60.7, (Noise.Power(450 + te, new Frequency(1e9)) + new Decibels(20)).Value, 0.1);
    }

    // J. Proakis, Digital Communications: Q(sqrt(2 Eb/N0)).
    [Theory]
    [InlineData(0, 7.865e-2)]
    [InlineData(4, 1.250e-2)]
    [InlineData(9.588, 1.0e-5)]
    [InlineData(10.53, 1.0e-6)]
    public void Bit_errors_match_the_textbook_curve(double db, double expected) =>
        Assert.Equal(1.0, Modulation.BitErrorRatio(new(db)) / expected, 0.001);

    // SI: k · 290 K = -173.975 dBm/Hz.
    [Fact]
    public void Thermal_noise_is_minus_174_dBm_per_hertz() =>
        Assert.Equal(-173.975, Noise.Power(290, new Frequency(1)).Value, 0.001);
}
