using System.Collections.Immutable;
using Cockpit.Checks;
using Xunit.Abstractions;

namespace Cockpit.Tests.Heavens;

/// <summary>Every published table of sun, moon, magnetic field, refraction and link; sources and reasons of the tolerances stand in the README of each folder.</summary>
public sealed class HeavensTableTests(ITestOutputHelper output)
{
    private static readonly ImmutableArray<TableCheck> Checks = HeavensTables.Compare(ReferenceFiles.Text);

    [Fact]
    public void Every_table_agrees_within_its_tolerance()
    {
        Assert.All(Checks, check => output.WriteLine(check.ToString()));
        Assert.All(Checks, check => Assert.True(check.Ok, check.ToString()));
    }

    // A table cut short by accident would still agree; the counts are those of the published files.
    [Theory]
    [InlineData("05_sun_moon/sun_moon.csv", "sun, two libraries", 72)]
    [InlineData("05_sun_moon/sun_moon.csv", "moon, two libraries", 72)]
    [InlineData("06_magnetic/wmm2025_test_values.csv", "strengths", 250)]
    [InlineData("06_magnetic/wmm2025_test_values.csv", "angles", 100)]
    [InlineData("06_magnetic/wmm2025_readme_rows.csv", "rates of strengths", 10)]
    [InlineData("07_refraction/refraction.csv", "light, from apparent elevation", 12)]
    [InlineData("07_refraction/radio.csv", "radio, from free-space elevation", 30)]
    public void The_whole_table_was_compared(string table, string quantity, int values)
    {
        TableCheck check = Assert.Single(Checks, one => (one.Table, one.Quantity).Equals((table, quantity)));
        Assert.Equal(values, check.Compared);
    }

    [Fact]
    public void A_wrong_value_or_an_empty_table_fails()
    {
        string shifted = ReferenceFiles.Text("07_refraction/radio.csv").Replace("0,0,0.761035", "0,0,0.761135", StringComparison.Ordinal);
        Assert.Contains(RefractionTables.CompareRadio(shifted), check => !check.Ok);
        Assert.All(SkyTables.Compare("station,lat,lon,alt_m,utc,body,az_ephem,el_ephem,az_ae,el_ae\n"), check => Assert.False(check.Ok));
    }
}
