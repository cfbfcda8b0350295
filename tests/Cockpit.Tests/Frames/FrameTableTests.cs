using System.Collections.Immutable;
using Cockpit.Checks;
using Xunit.Abstractions;

namespace Cockpit.Tests.Frames;

// Sources and tolerances of every table stand in tests/data/reference/*/README.md: Skyfield 1.45 and a plain textbook chain
// (02, 03, 04), ERFA (IAU SOFA), Vallado's textbook and AIAA 2006-6753 (08).
public sealed class FrameTableTests(ITestOutputHelper output)
{
    private static readonly Lazy<ImmutableArray<TableCheck>> Checks = new(() => FrameTables.Compare(name => File.ReadAllText(ReferenceFiles.PathOf(name))));

    public static TheoryData<string> Folders => ["02_look_angles", "03_passes", "04_doppler", "08_geodesy"];

    [Theory]
    [MemberData(nameof(Folders))]
    public void Every_quantity_of_the_table_agrees_within_its_tolerance(string folder)
    {
        ImmutableArray<TableCheck> checks = [.. Checks.Value.Where(check => check.Table.StartsWith(folder, StringComparison.Ordinal))];
        Assert.NotEmpty(checks);
        Assert.All(checks, check => output.WriteLine(check.ToString()));
        Assert.All(checks, check => Assert.True(check.Ok, check.ToString()));
    }

    // A table cut short by accident would still agree; the counts are those of the published files, times the values a row.
    [Theory]
    [InlineData("azimuth * cos(elevation)", 2 * 1928)]
    [InlineData("passes listed, per search", 6 * 4 * 3)]
    [InlineData("highest elevation", 1426)]
    [InlineData("shift from the elements", 190)]
    [InlineData("Greenwich mean sidereal time", 12)]
    [InlineData("geodetic to Earth-fixed", 17)]
    public void The_whole_table_was_compared(string quantity, int values) =>
        Assert.Equal(values, Assert.Single(Checks.Value, check => string.Equals(check.Quantity, quantity, StringComparison.Ordinal)).Compared);

    [Fact]
    public void A_shifted_value_or_a_missing_pass_fails()
    {
        string Shifted(string name) => File.ReadAllText(ReferenceFiles.PathOf(name))
            .Replace("65.476326,-0.595618", "65.476426,-0.595618", StringComparison.Ordinal)
            .Replace("2026-11-25T07:36:26.2748Z", "2026-11-25T07:36:26.2948Z", StringComparison.Ordinal)
            .Replace("37475.0782", "37477.0782", StringComparison.Ordinal)
            .Replace("308.549194316", "308.549194416", StringComparison.Ordinal);
        string[] failing = [.. FrameTables.Compare(Shifted).Where(check => !check.Ok).Select(check => check.Table[..2])];
        Assert.Equal(["02", "03", "04", "04", "08"], failing);
    }
}
