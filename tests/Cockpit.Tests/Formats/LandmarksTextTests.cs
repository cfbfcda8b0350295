using System.Collections.Immutable;
using Cockpit.Core.Formats;
using Cockpit.Core.Formats.Options;
using Cockpit.Core.Geo;

namespace Cockpit.Tests.Formats;

public sealed class LandmarksTextTests
{
    [Fact]
    public void Several_landmarks_are_read_with_and_without_a_height()
    {
        Assert.True(LandmarksText.Read(" church tower = 47.7985,11.2055,610 ; mast=47.81,11.19;", "--landmarks").Try(out ImmutableArray<Landmark> read, out _));
        Assert.Equal(["church tower", "mast"], read.Select(landmark => landmark.Name));
        Assert.Equal([true, false], read.Select(landmark => landmark.HasHeight));
        Assert.Equal(610.0, read[0].Site.HeightMetres);
        Assert.Equal(11.19, read[1].Site.Longitude.Degrees, 9);
    }

    [Theory]
    [InlineData("", "--landmarks: there are 0 landmarks; one to 9 are written like NAME=LAT,LON[,ALT_M];...")]
    [InlineData("47.8,11.2", "--landmarks: '47.8,11.2' has no name of 1 to 40 letters; write landmarks like church tower=47.7985,11.2055,610")]
    [InlineData("mast=47.8", "--landmarks, 'mast': '47.8' is not a station; write the station as LAT,LON[,ALT_M] in degrees and metres, like 47.8,11.2,520")]
    [InlineData("a=1,2;a=1,2;a=1,2;a=1,2;a=1,2;a=1,2;a=1,2;a=1,2;a=1,2;a=1,2", "--landmarks: there are 10 landmarks; one to 9 are written like NAME=LAT,LON[,ALT_M];...")]
    public void A_mistake_is_named(string text, string sentence)
    {
        Assert.False(LandmarksText.Read(text, "--landmarks").Try(out _, out ParseError? error));
        Assert.Equal(sentence, error.ToString());
    }
}
