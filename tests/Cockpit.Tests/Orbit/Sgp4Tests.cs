using Cockpit.Checks;
using Cockpit.Core.Geo;
using Cockpit.Core.Orbit;
using Cockpit.Core.Orbit.Theory;
using Xunit.Abstractions;

namespace Cockpit.Tests.Orbit;

public sealed class Sgp4Tests(ITestOutputHelper output)
{
    // D. Vallado, P. Crawford, R. Hujsak, T. Kelso, Revisiting Spacetrack Report #3, AIAA 2006-6753: verification set.
    // The print resolves 1e-8 km and 1e-9 km/s; the tolerance leaves room for the run-time library's sine and cosine.
    [Fact]
    public void All_33_published_cases_agree_in_states_and_error_codes()
    {
        var cases = PublishedSgp4Cases.Read(
            Text("SGP4-VER.TLE"),
            Text("tcppver.out"),
            Text("expected_errors.csv"));
        Assert.Equal(33, cases.Count);

        StateComparison[] results = [.. cases
            .Select(c => StateComparison.Of($"case {c.Number}", new Sgp4(c.Elements), c.States))];

        Assert.Equal(33, results.Length);
        AssertClose(results, 1e-6, 1e-8);
    }

    // Element sets made up for the check, states from a general-purpose library (python-sgp4 2.15, WGS-72).
    [Fact]
    public void Synthetic_sets_agree_in_states_and_error_codes()
    {
        StateComparison[] results = [.. SyntheticStates
            .Read(Text("synth_elements.tle"), Text("synth_states.csv"))
            .Select(c => StateComparison.Of(c.Elements.Name, new Sgp4(c.Elements), c.States))];

        Assert.Equal(10, results.Length);
        AssertClose(results, 1e-6, 1e-9);
    }

    [Fact]
    public void No_answer_depends_on_an_earlier_one()
    {
        foreach ((ElementSet elements, IReadOnlyList<GivenState> states) in SyntheticStates.Read(Text("synth_elements.tle"), Text("synth_states.csv")))
        {
            var used = new Sgp4(elements);
            foreach (GivenState given in states.Reverse().Concat(states))
            {
                PropagationStatus status = used.Propagate(given.Minutes, out TemeState state);
                Assert.Equal(status, new Sgp4(elements).Propagate(given.Minutes, out TemeState fresh));
                Assert.Equal(fresh, state);
            }
        }
    }

    [Fact]
    public void An_instant_is_counted_from_the_epoch()
    {
        ElementSet elements = SyntheticStates.Read(Text("synth_elements.tle"), Text("synth_states.csv"))[0].Elements;
        var sgp4 = new Sgp4(elements);
        sgp4.Propagate(elements.EpochUtc.AddMinutes(45.25), out TemeState byInstant);
        sgp4.Propagate(45.25, out TemeState byMinutes);
        Assert.Equal(byMinutes.X, byInstant.X, 1e-6);
        Assert.Equal(byMinutes.Vz, byInstant.Vz, 1e-9);
    }

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(-1.1e10)]
    public void A_time_that_is_none_is_the_callers_mistake(double minutes)
    {
        var sgp4 = new Sgp4(SyntheticStates.Read(Text("synth_elements.tle"), Text("synth_states.csv"))[0].Elements);
        Assert.Throws<ArgumentOutOfRangeException>(() => sgp4.Propagate(minutes, out _));
    }

    [Fact]
    public void Elements_out_of_range_are_refused_in_one_sentence()
    {
        ElementSet elements = SyntheticStates.Read(Text("synth_elements.tle"), Text("synth_states.csv"))[0].Elements with { Eccentricity = 1.0 };
        Assert.Equal("SYN01 SSO: eccentricity is 1, expected 0 to below 1", Sgp4.Validate(elements));
        Assert.Throws<ArgumentException>(() => new Sgp4(elements));
    }

    private static string Text(string file) => File.ReadAllText(ReferenceFiles.PathOf("01_sgp4/" + file));

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
