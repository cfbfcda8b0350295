using Cockpit.Core.Estimate;
using Cockpit.Core.Steering;

namespace Cockpit.Tests.Estimate;

public sealed class CompassSearchTests
{
    [Fact]
    public void The_looks_go_outwards_over_the_most_probable_errors_and_never_to_the_same_place_twice_in_a_row()
    {
        CompassSearch search = new(HandModel.Novice, 15.4);
        List<(double Compass, double Tilt)> looks = [];
        for (int i = 0; i < 12; i++)
        {
            looks.Add(search.Best(20.0));
            search.Failed(looks[^1].Compass, looks[^1].Tilt, 6.0);
        }

        Assert.Equal((0.0, 0.0), looks[0]);
        Assert.Equal(12, search.Count);
        for (int i = 1; i < looks.Count; i++)
        {
            Assert.True(Apart(looks[i - 1], looks[i]) > 5.0, $"look {i}");
        }

        // Errors of one and a half standard deviations in both are within a third of the beam of some look.
        Assert.Contains(looks, look => Apart(look, (-16.5, -8.0)) < 6.0);
        Assert.Contains(looks, look => Apart(look, (16.5, 8.0)) < 6.0);
    }

    private static double Apart((double Compass, double Tilt) one, (double Compass, double Tilt) other) =>
        Math.Sqrt(Math.Pow((one.Compass - other.Compass) * 0.94, 2) + Math.Pow(one.Tilt - other.Tilt, 2));
}
