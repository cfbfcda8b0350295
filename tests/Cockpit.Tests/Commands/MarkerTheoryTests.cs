using Cockpit.Checks.Signal;
using Cockpit.Core.Dsp.Coding;

namespace Cockpit.Tests.Commands;

public sealed class MarkerTheoryTests
{
    // Without a signal the correlation is exponential: exp(-6) of it is above six times its mean, exactly.
    [Theory]
    [InlineData(CodeRate.Half)]
    [InlineData(CodeRate.ThreeQuarters)]
    public void In_noise_a_marker_is_seen_as_often_as_an_exponential_says(CodeRate rate) =>
        Assert.Equal(Math.Exp(-6.0), MarkerTheory.Found(rate, -80.0), 1e-5);

    [Fact]
    public void It_is_found_more_often_the_stronger_it_is_and_nearly_always_at_4_dB()
    {
        double[] found = [.. Enumerable.Range(-12, 17).Select(db => MarkerTheory.Found(CodeRate.ThreeQuarters, db))];
        Assert.All(found.Zip(found.Skip(1)), pair => Assert.True(pair.First < pair.Second));
        Assert.InRange(found[^1], 0.99, 1.0);
    }
}
