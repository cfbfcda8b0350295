using Cockpit.Core.Formats.Options;
using Cockpit.Core.Geo;
using Cockpit.Core.Units;

namespace Cockpit.Tests.Formats;

public sealed class HorizonTextTests
{
    [Fact]
    public void Pairs_on_the_command_line_are_read()
    {
        HorizonMask mask = HorizonText.Read("200:12, 240:18,300:5", "--horizon").Value!;
        Assert.Equal(3, mask.Points.Length);
        Assert.Equal(15.0, mask.At(Angle.FromDegrees(220)).Degrees, 1e-9);
    }

    [Fact]
    public void A_file_of_pairs_is_read_with_any_usual_mark_between()
    {
        HorizonMask mask = HorizonText.ReadLines(["# roof", "0 5", "90,6", "180;7 # tree", "", "270:8", "360\t5"], "h.txt").Value!;
        Assert.Equal([5, 6, 7, 8], mask.Points.Select(p => Math.Round(p.Elevation.Degrees, 9)));
    }

    [Theory]
    [InlineData("200", "'200' is not a point of the horizon; write pairs AZIMUTH:ELEVATION in degrees, like 200:12,240:18,300:5")]
    [InlineData("200:x", "'200:x' is not a point of the horizon; write pairs AZIMUTH:ELEVATION in degrees, like 200:12,240:18,300:5")]
    [InlineData("400:5", "azimuth 400 is outside 0 to 360; write pairs AZIMUTH:ELEVATION in degrees, like 200:12,240:18,300:5")]
    [InlineData("20:95", "elevation 95 is outside -10 to below 90; write pairs AZIMUTH:ELEVATION in degrees, like 200:12,240:18,300:5")]
    [InlineData("20:5,20:6", "azimuth 20 stands twice; write a step as two azimuths side by side, like 200 and 200.1")]
    public void A_mistake_in_the_pairs_is_told(string text, string message) =>
        Assert.Equal("--horizon: " + message, HorizonText.Read(text, "--horizon").Error?.ToString());

    [Fact]
    public void A_mistake_in_the_file_is_told_with_its_line()
    {
        Assert.Equal("h.txt:2: '90' is not a point of the horizon; write an azimuth and an elevation in degrees, like 200 12",
            HorizonText.ReadLines(["0 5", "90"], "h.txt").Error?.ToString());
        Assert.Equal("h.txt: there is no point of the horizon in it; write an azimuth and an elevation in degrees a line, like 200 12",
            HorizonText.ReadLines(["# nothing"], "h.txt").Error?.ToString());
    }
}
