using Cockpit.Core.Formats;
using Cockpit.Core.Formats.Options;
using Cockpit.Core.Geo;

namespace Cockpit.Tests.Formats;

public sealed class OptionTextTests
{
    [Theory]
    [InlineData("2026-11-25T10:15:00Z", "2026-11-25T10:15:00.0000000")]
    [InlineData("2026-11-25T10:15:00", "2026-11-25T10:15:00.0000000")]
    [InlineData("2026-11-25T10:15:00.25Z", "2026-11-25T10:15:00.2500000")]
    [InlineData("2026-11-25T10:15:00.123456789Z", "2026-11-25T10:15:00.1234567")]
    [InlineData("2026-11-25T10:15:00.123456789", "2026-11-25T10:15:00.1234567")]
    [InlineData("2026-11-25T10:15Z", "2026-11-25T10:15:00.0000000")]
    [InlineData("2026-11-25T12:15:00+02:00", "2026-11-25T10:15:00.0000000")]
    [InlineData("2026-11-25T23:00:00.5-05:30", "2026-11-26T04:30:00.5000000")]
    [InlineData("2026-11-25 10:15:00", "2026-11-25T10:15:00.0000000")]
    [InlineData(" 2026-11-25 ", "2026-11-25T00:00:00.0000000")]
    public void An_instant_is_read_as_UTC(string text, string expected)
    {
        DateTimeOffset utc = InstantText.Read(text, "--at").Value;
        Assert.Equal(TimeSpan.Zero, utc.Offset);
        Assert.Equal(expected, utc.ToString("yyyy-MM-dd'T'HH:mm:ss.fffffff"));
    }

    [Theory]
    [InlineData("")]
    [InlineData("tomorrow")]
    [InlineData("25.11.2026 10:15")]
    [InlineData("2026-13-25T10:15:00Z")]
    [InlineData("2026-11-25T10:15:60Z")]
    [InlineData("2026-11-25T10:15:00Q")]
    public void What_is_no_instant_is_refused_with_one_sentence(string text) =>
        Assert.Equal($"--at: '{text}' is not an instant; write it like 2026-11-25T10:15:00Z", InstantText.Read(text, "--at").Error?.ToString());

    [Fact]
    public void Instants_one_a_line_tell_the_line_of_a_mistake()
    {
        Assert.Equal(2, InstantText.ReadLines(["# times", "2026-11-25T10:15:00Z", "", "2026-11-25T10:16:00Z"], "t.txt").Value.Length);
        Assert.Equal("t.txt:3: 'noon' is not an instant; write it like 2026-11-25T10:15:00Z",
            InstantText.ReadLines(["2026-11-25T10:15:00Z", "#", "noon"], "t.txt").Error?.ToString());
        Assert.Equal("t.txt: no instant found; write one UTC a line, like 2026-11-25T10:15:00Z", InstantText.ReadLines([], "t.txt").Error?.ToString());
    }

    [Theory]
    [InlineData("72h", 259200.0)]
    [InlineData("10s", 10.0)]
    [InlineData("30m", 1800.0)]
    [InlineData("3d", 259200.0)]
    [InlineData("250ms", 0.25)]
    [InlineData("1h30m", 5400.0)]
    [InlineData("1.5h", 5400.0)]
    public void A_span_is_read(string text, double seconds) => Assert.Equal(seconds, SpanText.Read(text, "--for").Value.TotalSeconds);

    [Theory]
    [InlineData("")]
    [InlineData("72")]
    [InlineData("-72h")]
    [InlineData("0s")]
    [InlineData("h")]
    [InlineData("3 weeks")]
    [InlineData("1..5h")]
    public void What_is_no_span_is_refused_with_one_sentence(string text) =>
        Assert.Equal($"--for: '{text}' is not a length of time; write it like 10s, 30m, 72h or 3d", SpanText.Read(text, "--for").Error?.ToString());

    [Fact]
    public void A_span_beyond_ten_years_is_refused() =>
        Assert.Equal("--for: '99999d' is too long; at most 3660d can be asked for", SpanText.Read("99999d", "--for").Error?.ToString());

    [Fact]
    public void A_station_is_read_in_degrees_and_metres()
    {
        Site site = StationText.Read("47.8, -11.2, 520", "--station").Value;
        Assert.Equal(47.8, site.Latitude.Degrees, 1e-12);
        Assert.Equal(-11.2, site.Longitude.Degrees, 1e-12);
        Assert.Equal(520.0, site.HeightMetres);
        Assert.Equal(0.0, StationText.Read("-90,180", "--station").Value.HeightMetres);
    }

    [Theory]
    [InlineData("91,0", "latitude 91 is outside -90 to 90")]
    [InlineData("0,190", "longitude 190 is outside -180 to 180 (west is negative)")]
    [InlineData("0,0,90000", "height 90000 m is outside -1000 to 20000")]
    [InlineData("47.8", "'47.8' is not a station")]
    [InlineData("47.8,east", "'47.8,east' is not a station")]
    [InlineData("NaN,0", "'NaN,0' is not a station")]
    [InlineData("1,2,3,4", "'1,2,3,4' is not a station")]
    public void A_station_off_the_earth_is_refused_with_one_sentence(string text, string reason) =>
        Assert.Equal($"--station: {reason}; write the station as LAT,LON[,ALT_M] in degrees and metres, like 47.8,11.2,520", StationText.Read(text, "--station").Error?.ToString());

    [Theory]
    [InlineData("5", 5.0)]
    [InlineData("5deg", 5.0)]
    [InlineData("-0.5 deg", -0.5)]
    [InlineData("12.5°", 12.5)]
    public void An_angle_is_read(string text, double degrees) => Assert.Equal(degrees, AngleText.Read(text, "--above", -1, 90).Value.Degrees, 1e-12);

    [Theory]
    [InlineData("steep", "'steep' is not an angle; write degrees like 5 or 5deg")]
    [InlineData("5rad", "'5rad' is not an angle; write degrees like 5 or 5deg")]
    [InlineData("95", "'95' is outside -1 to 90 degrees")]
    public void A_wrong_angle_is_refused_with_one_sentence(string text, string reason) => Assert.Equal("--above: " + reason, AngleText.Read(text, "--above", -1, 90).Error?.ToString());

    [Theory]
    [InlineData("1701.5MHz", 1701.5e6)]
    [InlineData("1.7GHz", 1.7e9)]
    [InlineData("137100 khz", 137.1e6)]
    [InlineData("1700000000Hz", 1.7e9)]
    public void A_frequency_is_read(string text, double hertz) => Assert.Equal(hertz, FrequencyText.Read(text, "--frequency").Value.Hertz, 1e-3);

    [Theory]
    [InlineData("1701.5")]
    [InlineData("-1MHz")]
    [InlineData("MHz")]
    [InlineData("9e9GHz")]
    public void A_wrong_frequency_is_refused_with_one_sentence(string text) =>
        Assert.Equal($"--frequency: '{text}' is not a frequency; write a positive number with its unit, like 1701.5MHz or 1.7GHz", FrequencyText.Read(text, "--frequency").Error?.ToString());

    [Fact]
    public void Strange_and_long_input_is_shown_short_and_printable() =>
        Assert.Equal("'\\u001b[2J" + new string('x', 36) + "...'", Quoted.Of("\u001b[2J" + new string('x', 100)));
}
