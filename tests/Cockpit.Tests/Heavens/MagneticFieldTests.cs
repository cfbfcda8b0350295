using System.Globalization;
using Cockpit.Core.Geo;
using Cockpit.Core.Magnetic;
using Cockpit.Core.Units;
using CsCheck;

namespace Cockpit.Tests.Heavens;

public sealed class MagneticFieldTests
{
    private static readonly Site Lowland = new(Angle.FromDegrees(47.8), Angle.FromDegrees(11.2), 520);

    // WMM2025.COF, NCEI and British Geological Survey: if the table were mistyped, one of its 360 numbers would differ.
    [Fact]
    public void The_coefficient_table_is_the_published_file_number_by_number()
    {
        double[] published = [.. ReferenceFiles.Text("06_magnetic/WMM2025.COF").Split('\n').Skip(1)
            .Select(line => line.Split(' ', StringSplitOptions.RemoveEmptyEntries)).Where(cells => cells.Length == 6)
            .SelectMany(cells => cells[2..]).Select(cell => double.Parse(cell, CultureInfo.InvariantCulture))];
        Assert.Equal(360, published.Length);
        Assert.Equal(published, MagneticCoefficients.Rows.ToArray());
    }

    [Theory]
    [InlineData(90.0)]
    [InlineData(-90.0)]
    public void At_the_poles_the_field_is_finite_and_joins_the_field_beside_them(double latitude)
    {
        MagneticField pole = WorldMagneticModel.At(new Site(Angle.FromDegrees(latitude), Angle.FromDegrees(30), 0), 2026.0);
        MagneticField beside = WorldMagneticModel.At(new Site(Angle.FromDegrees(latitude * (1 - 1e-9)), Angle.FromDegrees(30), 0), 2026.0);
        Assert.Equal(beside.North, pole.North, 0.01);
        Assert.Equal(beside.East, pole.East, 0.01);
        Assert.Equal(beside.Down, pole.Down, 0.01);
    }

    // The error model that comes with the World Magnetic Model 2025: sqrt(0.26² + (5417 / H)²) degrees.
    [Fact]
    public void The_declination_comes_with_the_uncertainty_of_the_model()
    {
        MagneticField field = WorldMagneticModel.At(Lowland, 2026.9);
        Assert.Equal(Math.Sqrt((0.26 * 0.26) + (5417.0 / 21275.557157 * (5417.0 / 21275.557157))), field.DeclinationUncertainty.Degrees, 1e-6);
        Assert.Null(field.Warning);
    }

    [Theory]
    [InlineData(2024.99, true)]
    [InlineData(2025.0, false)]
    [InlineData(2030.0, false)]
    [InlineData(2030.01, true)]
    public void Outside_its_five_years_the_model_warns(double year, bool warns)
    {
        string? warning = WorldMagneticModel.At(Lowland, year).Warning;
        Assert.Equal(warns, warning is not null);
        if (warns)
        {
            Assert.Contains("2025.0 to 2030.0", warning, StringComparison.Ordinal);
        }
    }

    // First row of the official test values: H = 1504 nT at 89° north.
    [Fact]
    public void Near_a_magnetic_pole_the_compass_is_refused()
    {
        MagneticField field = WorldMagneticModel.At(new Site(Angle.FromDegrees(89), Angle.FromDegrees(-121), 28000), 2025.0);
        Assert.Contains("compass cannot be used", field.Warning, StringComparison.Ordinal);
    }

    [Fact]
    public void A_bearing_and_its_true_azimuth_differ_by_the_declination_across_north_too()
    {
        MagneticField field = WorldMagneticModel.At(Lowland, 2026.9);
        Assert.Equal(4.269231, field.Declination.Degrees, 1e-6);
        Assert.Equal(360 + 2 - 4.269231, field.ToMagnetic(Angle.FromDegrees(2)).Degrees, 1e-5);
        Gen.Double[0, 359.999].Sample(degrees =>
            Math.Abs((field.ToTrue(field.ToMagnetic(Angle.FromDegrees(degrees))) - Angle.FromDegrees(degrees)).WrappedToHalfTurn().Degrees) < 1e-9);
    }

    [Fact]
    public void A_decimal_year_counts_the_days_of_that_year()
    {
        Assert.Equal(2026.0, WorldMagneticModel.DecimalYear(new DateTimeOffset(2026, 1, 1, 0, 0, 0, TimeSpan.Zero)), 1e-12);
        Assert.Equal(2028.5, WorldMagneticModel.DecimalYear(new DateTimeOffset(2028, 7, 2, 0, 0, 0, TimeSpan.Zero)), 1e-12);
    }
}
