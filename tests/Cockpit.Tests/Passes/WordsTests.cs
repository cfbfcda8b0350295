using Cockpit.Core.Passes;
using Cockpit.Core.Sky;
using Cockpit.Core.Units;
using Cockpit.Core.Verdicts;
using CsCheck;

namespace Cockpit.Tests.Passes;

public sealed class WordsTests
{
    [Theory]
    [InlineData(0, "north", "north", "N")]
    [InlineData(11.2, "north", "north", "N")]
    [InlineData(11.3, "north-north-east", "north", "NNE")]
    [InlineData(22.6, "north-north-east", "north-east", "NNE")]
    [InlineData(157.5, "south-south-east", "south", "SSE")]
    [InlineData(270, "west", "west", "W")]
    [InlineData(348.8, "north", "north", "N")]
    [InlineData(359.99, "north", "north", "N")]
    [InlineData(-90, "west", "west", "W")]
    [InlineData(725, "north", "north", "N")]
    public void A_direction_is_named_by_its_nearest_point(double degrees, string sixteen, string eight, string letters)
    {
        Angle azimuth = Angle.FromDegrees(degrees);
        Assert.Equal((sixteen, eight, letters), (CompassWords.Sixteen(azimuth), CompassWords.Eight(azimuth), CompassWords.Abbreviated(azimuth)));
    }

    [Theory]
    [InlineData(2, 85, 40, 160, "from north, over the east, to south-south-east", 158)]
    [InlineData(160, 85, 40, 2, "from south-south-east, over the east, to north", -158)]
    [InlineData(345, 280, 35, 200, "from north-north-west, over the west, to south-south-west", -145)]
    [InlineData(200, 280, 35, 345, "from south-south-west, over the west, to north-north-west", 145)]
    [InlineData(300, 2, 25, 60, "from west-north-west, over the north, to east-north-east", 120)]
    [InlineData(60, 355, 25, 300, "from east-north-east, over the north, to west-north-west", -120)]
    [InlineData(190, 275, 83, 12, "from south, nearly overhead by the west, to north-north-east", 182)]
    [InlineData(11, 100, 88, 192, "from north, straight overhead, to south-south-west", 181)]
    [InlineData(40, 70, 6, 100, "from north-east, over the east, to east", 60)]
    public void The_way_over_the_sky_is_told_both_ways_round_across_north_and_overhead(
        double rise, double culmination, double highest, double set, string words, double round)
    {
        Pass pass = PassOf(rise, culmination, highest, set);
        Assert.Equal(words, TravelWords.Of(pass));
        Assert.Equal(round, TravelWords.Round(pass).Degrees, 1e-9);
    }

    [Fact]
    public void A_pass_that_is_cut_says_so()
    {
        Pass pass = PassOf(2, 85, 40, 160);
        Assert.Equal("already up in the north, over the east, to south-south-east", TravelWords.Of(pass with { CutAtStart = true }));
        Assert.Equal("from north, over the east, still up in the south-south-east", TravelWords.Of(pass with { CutAtEnd = true }));
    }

    [Theory]
    [InlineData(19.9, "low")]
    [InlineData(20, "medium")]
    [InlineData(45, "high")]
    [InlineData(80, "overhead")]
    public void Height_is_one_word(double highest, string word) => Assert.Equal(word, TravelWords.Height(Angle.FromDegrees(highest)));

    [Fact]
    public void Every_direction_has_a_name_no_farther_than_half_a_point() =>
        Gen.Double[-720, 720].Sample(degrees =>
        {
            string name = CompassWords.Abbreviated(Angle.FromDegrees(degrees));
            string[] all = ["N", "NNE", "NE", "ENE", "E", "ESE", "SE", "SSE", "S", "SSW", "SW", "WSW", "W", "WNW", "NW", "NNW"];
            double middle = Array.IndexOf(all, name) * 22.5;
            return Math.Abs(Math.IEEERemainder(degrees - middle, 360)) <= 11.25 + 1e-9;
        });

    private static Pass PassOf(double rise, double culmination, double highest, double set)
    {
        DateTimeOffset aos = new(2026, 11, 25, 10, 15, 0, TimeSpan.Zero);
        PassMoment Moment(int minute, double azimuth, double elevation) =>
            new(aos.AddMinutes(minute), new LookAngles(Angle.FromDegrees(azimuth), Angle.FromDegrees(elevation), 1500, 0));
        return new Pass(Moment(0, rise, 5), Moment(6, culmination, highest), Moment(12, set, 5));
    }
}
