using Cockpit.Core.Link;
using Cockpit.Core.Units;
using CsCheck;

namespace Cockpit.Tests.Link;

/// <summary>The budget of a dish under a satellite 830 km up at 1.7 GHz, against a table worked out beforehand from the same stated inputs.</summary>
public sealed class LinkBudgetTests
{
    /// <summary>The table rounds to 0.1 dB and its antenna temperatures come from a sky integral; ours is a closed formula.</summary>
    private const double TableTolerance = 0.2;

    private static readonly double[] Elevations = [5, 10, 30, 90];
    private static readonly double[] RangesKm = [2847, 2428, 1442, 830];

    [Theory]
    [InlineData(0.6, new[] { 65.4, 68.4, 74.0, 77.6 })]
    [InlineData(0.8, new[] { 68.1, 71.3, 76.3, 80.0 })]
    [InlineData(1.0, new[] { 70.2, 73.3, 78.1, 81.8 })]
    public void Carrier_to_noise_density_matches_the_table(double diameter, double[] expected)
    {
        for (int i = 0; i < expected.Length; i++)
        {
            double ours = Model(diameter, Service.SplitPhase665k).ExpectedCarrierToNoiseDensity(Angle.FromDegrees(Elevations[i]), RangesKm[i]).Value;
            Assert.Equal(expected[i], ours, TableTolerance);
        }
    }

    [Theory]
    [InlineData(0.6, "split-phase-665k", new[] { -6.3, -3.4, 2.2, 5.9 })]
    [InlineData(0.6, "manchester-665k", new[] { -2.1, 0.9, 6.4, 10.1 })]
    [InlineData(0.6, "qpsk-2333k", new[] { -5.8, -2.9, 2.7, 6.4 })]
    [InlineData(0.6, "qpsk-2800k", new[] { -6.6, -3.6, 1.9, 5.6 })]
    [InlineData(0.8, "split-phase-665k", new[] { -3.7, -0.5, 4.6, 8.3 })]
    [InlineData(0.8, "manchester-665k", new[] { 0.6, 3.7, 8.8, 12.5 })]
    [InlineData(0.8, "qpsk-2333k", new[] { -3.1, 0.0, 5.1, 8.8 })]
    [InlineData(0.8, "qpsk-2800k", new[] { -3.9, -0.8, 4.3, 8.0 })]
    [InlineData(1.0, "split-phase-665k", new[] { -1.6, 1.6, 6.3, 10.0 })]
    [InlineData(1.0, "manchester-665k", new[] { 2.6, 5.8, 10.5, 14.2 })]
    [InlineData(1.0, "qpsk-2333k", new[] { -1.1, 2.1, 6.8, 10.5 })]
    [InlineData(1.0, "qpsk-2800k", new[] { -1.9, 1.3, 6.0, 9.7 })]
    public void Margins_match_the_table(double diameter, string service, double[] expected)
    {
        LinkModel model = Model(diameter, Service.Named(service)!);
        for (int i = 0; i < expected.Length; i++)
        {
            Assert.Equal(expected[i], model.ExpectedMargin(Angle.FromDegrees(Elevations[i]), RangesKm[i]).Value, TableTolerance);
        }
    }

    [Theory]
    [InlineData(0.6, new[] { -4.9, -3.5, -2.0, -1.8 })]
    [InlineData(0.8, new[] { -2.1, -0.5, 0.5, 0.7 })]
    [InlineData(1.0, new[] { 0.1, 1.7, 2.5, 2.6 })]
    public void Figure_of_merit_matches_the_table(double diameter, double[] expected)
    {
        for (int i = 0; i < expected.Length; i++)
        {
            LinkModel model = Model(diameter, Service.Qpsk2333k);
            Assert.Equal(expected[i], model.Dish.FigureOfMerit(model.Carrier, Angle.FromDegrees(Elevations[i])).DecibelsPerKelvin, TableTolerance);
        }
    }

    // A public direct-broadcast user page asks for G/T > 4 dB/K and calls a 1.8 m dish enough.
    [Fact]
    public void A_large_dish_reaches_what_a_direct_broadcast_user_page_asks_for()
    {
        LinkModel model = Model(1.8, Service.SplitPhase665k);
        double low = model.Dish.FigureOfMerit(model.Carrier, Angle.FromDegrees(5)).DecibelsPerKelvin;
        Assert.InRange(low, 4.0, 7.0);
    }

    [Fact]
    public void Lines_add_up_to_the_carrier_to_noise_density_and_each_says_where_it_comes_from()
    {
        LinkModel model = Model(0.8, Service.Manchester665k);
        LinkBudget budget = model.Budget(Angle.FromDegrees(30), 1442);
        Assert.Equal(model.ExpectedMargin(Angle.FromDegrees(30), 1442).Value, budget.Margin.Value, 1e-9);
        Assert.Equal(budget.CarrierToNoiseDensity.Value, budget.Lines.Sum(line => line.Value.Value), 1e-12);
        Assert.Equal(budget.Margin.Value, budget.CarrierToNoiseDensity.Value - 67.53, 0.01);
        Assert.Equal(3.0, budget.Uncertainty.Value);
        Assert.All(budget.Lines, line => Assert.NotEmpty(line.Origin));
        Assert.Equal(budget.Lines.Length, budget.Lines.Select(line => line.Name).Distinct(StringComparer.Ordinal).Count());
    }

    [Fact]
    public void Settings_move_the_margin_the_way_they_must()
    {
        (Angle elevation, double rangeKm) = (Angle.FromDegrees(10), 2428);
        LinkModel usual = Model(0.8, Service.SplitPhase665k);
        double margin = usual.ExpectedMargin(elevation, rangeKm).Value;
        double Of(LinkModel model) => model.ExpectedMargin(elevation, rangeKm).Value;
        Assert.Equal(margin + 3.0, Of(usual with { Eirp = usual.Eirp.Raised(new(3)) }), 1e-9);
        Assert.Equal(margin - 2.5, Of(usual with { Dish = usual.Dish with { PolarisationLoss = new(3.0) } }), 1e-9);
        Assert.InRange(margin - Of(usual with { Dish = usual.Dish with { NoiseFigure = new(1.0) } }), 0.5, 1.1);
        Assert.InRange(margin - Of(usual with { Dish = usual.Dish with { PointingError = Angle.FromDegrees(5) } }), 0.8, 1.1);
    }

    [Fact]
    public void Every_elevation_gives_a_finite_margin_and_a_bigger_dish_never_less() =>
        Gen.Select(Gen.Double[-5, 90], Gen.Double[300, 4000]).Sample((elevation, rangeKm) =>
        {
            double small = Model(0.6, Service.Qpsk2800k).ExpectedMargin(Angle.FromDegrees(elevation), rangeKm).Value;
            double large = Model(1.0, Service.Qpsk2800k).ExpectedMargin(Angle.FromDegrees(elevation), rangeKm).Value;
            return double.IsFinite(small) && large > small;
        });

    [Fact]
    public void The_EIRP_runs_straight_between_its_knots_and_flat_outside()
    {
        EirpCurve curve = EirpCurve.Typical;
        Assert.Equal(39.0, curve.At(Angle.FromDegrees(0)).Value, 1e-9);
        Assert.Equal(38.65, curve.At(Angle.FromDegrees(20)).Value, 1e-9);
        Assert.Equal(37.0, curve.At(Angle.FromDegrees(90)).Value, 1e-9);
    }

    private static LinkModel Model(double diameter, Service service) =>
        new() { Service = service, Dish = new ReceivingDish { DiameterMetres = diameter } };
}
