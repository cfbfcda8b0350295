using Cockpit.Core.Orbit;
using Cockpit.Core.Verification;
using Xunit.Abstractions;

namespace Cockpit.Tests.Orbit;

public sealed class Sgp4Tests(ITestOutputHelper output)
{
    // D. Vallado, P. Crawford, R. Hujsak, T. Kelso, Revisiting Spacetrack Report #3, AIAA 2006-6753: verification set.
    // The print resolves 1e-8 km and 1e-9 km/s; the tolerance leaves room for the run-time library's sine and cosine.
    [Fact]
    public void Published_near_earth_cases_agree_in_states_and_error_codes()
    {
        var cases = PublishedSgp4Cases.Read(
            ReferenceFiles.Text("01_sgp4", "SGP4-VER.TLE"),
            ReferenceFiles.Text("01_sgp4", "tcppver.out"),
            ReferenceFiles.Text("01_sgp4", "expected_errors.csv"));
        Assert.Equal(33, cases.Count);

        StateComparison[] results = [.. cases
            .Where(c => Sgp4.Refusal(c.Elements) is null)
            .Select(c => StateComparison.Of($"case {c.Number}", new Sgp4(c.Elements), c.States))];

        Assert.Equal(9, results.Length);
        AssertClose(results, 1e-6, 1e-8);
    }

    // Element sets made up for the check, states from a general-purpose library (python-sgp4 2.15, WGS-72).
    [Fact]
    public void Synthetic_near_earth_sets_agree_in_states_and_error_codes()
    {
        StateComparison[] results = [.. SyntheticStates
            .Read(ReferenceFiles.Text("01_sgp4", "synth_elements.tle"), ReferenceFiles.Text("01_sgp4", "synth_states.csv"))
            .Where(c => Sgp4.Refusal(c.Elements) is null)
            .Select(c => StateComparison.Of(c.Elements.Name, new Sgp4(c.Elements), c.States))];

        Assert.Equal(7, results.Length);
        AssertClose(results, 1e-6, 1e-9);
    }

    [Fact]
    public void A_set_that_needs_deep_space_is_refused_in_one_sentence()
    {
        ElementSet high = SyntheticStates
            .Read(ReferenceFiles.Text("01_sgp4", "synth_elements.tle"), ReferenceFiles.Text("01_sgp4", "synth_states.csv"))[5].Elements;
        Assert.Equal(
            "SYN06 GPS DEEP: the period is 718.0 min; from 225 min on the deep-space part of the theory is needed, which this program does not have yet; choose a satellite in a lower orbit",
            Sgp4.Refusal(high));
        Assert.Throws<ArgumentException>(() => new Sgp4(high));
    }

    private void AssertClose(StateComparison[] results, double km, double kmPerSecond)
    {
        foreach (StateComparison result in results)
        {
            output.WriteLine(result.ToString());
            Assert.True(
                result.States > 0 && result.LargestKm <= km && result.LargestKmPerSecond <= kmPerSecond && result.WrongCodes.Count == 0,
                result.ToString());
        }
    }
}
