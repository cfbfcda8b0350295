using System.Collections.Immutable;
using Cockpit.Checks;
using Xunit.Abstractions;

namespace Cockpit.Tests.Heavens;

/// <summary>The pole star, landmarks and the ground below; sources and tolerances stand in the README of 13_north_ground.</summary>
public sealed class GroundTableTests(ITestOutputHelper output)
{
    private static readonly ImmutableArray<TableCheck> Checks = GroundTables.Compare(ReferenceFiles.Text);

    [Fact]
    public void Every_table_agrees_within_its_tolerance()
    {
        Assert.All(Checks, check => output.WriteLine(check.ToString()));
        Assert.All(Checks, check => Assert.True(check.Ok, check.ToString()));
    }

    // A table cut short by accident would still agree; the counts are those of the published files.
    [Theory]
    [InlineData("Polaris, azimuth", 80)]
    [InlineData("landmarks, azimuth", 53)]
    [InlineData("landmarks, distance", 54)]
    [InlineData("sub-satellite point", 150)]
    [InlineData("edges of the scan", 300)]
    public void The_whole_table_was_compared(string quantity, int values) =>
        Assert.Equal(values, Assert.Single(Checks, check => check.Quantity == quantity).Compared);

    [Fact]
    public void A_wrong_value_fails()
    {
        string polaris = ReferenceFiles.Text("13_north_ground/polaris.csv").Replace("0.187436,", "0.190436,", StringComparison.Ordinal);
        Assert.Contains(GroundTables.ComparePolaris(polaris), check => !check.Ok);
        string landmarks = ReferenceFiles.Text("13_north_ground/landmarks.csv").Replace("445.8169", "445.8189", StringComparison.Ordinal);
        Assert.Contains(GroundTables.CompareLandmarks(landmarks), check => !check.Ok);
    }
}
