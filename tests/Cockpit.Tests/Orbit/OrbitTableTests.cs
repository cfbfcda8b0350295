using System.Collections.Immutable;
using Cockpit.Checks;
using Xunit.Abstractions;

namespace Cockpit.Tests.Orbit;

public sealed class OrbitTableTests(ITestOutputHelper output)
{
    [Fact]
    public void Every_table_of_elements_and_states_agrees()
    {
        ImmutableArray<TableCheck> checks = OrbitTables.Compare(Text);
        Assert.Equal(23, checks.Length);
        Assert.All(checks, check =>
        {
            output.WriteLine(check.ToString());
            Assert.True(check.Ok, check.ToString());
        });
    }

    [Fact]
    public void A_state_that_is_one_metre_off_is_noticed()
    {
        ImmutableArray<TableCheck> checks = OrbitTables.Compare(path => path == "09_omm_tle/states.csv"
            ? Text(path).Replace("5774.864982841", "5774.865982841", StringComparison.Ordinal)
            : Text(path));
        Assert.Equal(5, checks.Count(check => !check.Ok));
    }

    [Fact]
    public void A_wrong_error_code_is_noticed()
    {
        ImmutableArray<TableCheck> checks = OrbitTables.Compare(path => path == "01_sgp4/expected_errors.csv"
            ? Text(path).Replace("26,28872,55.0,6", "26,28872,55.0,4", StringComparison.Ordinal)
            : Text(path));
        Assert.Equal("error codes, wrong ones", Assert.Single(checks, check => !check.Ok).Quantity);
    }

    private static string Text(string path) => File.ReadAllText(ReferenceFiles.PathOf(path));
}
