using Cockpit.Core.Formats;
using Cockpit.Settings.Stored;

namespace Cockpit.Tests.Settings;

/// <summary>One value of a place changed, and not a letter beside it.</summary>
public sealed class SettingsChangeTests
{
    private const string Two = """
        # my places
        version = 1

        [[places]]   # the first
        name = "meadow"
        latitude_deg = 47.8   # by the map
        longitude_deg = 11.2

        # by the barn
        [[places]]
          name = 'barn # 2'
          latitude_deg = 48
          longitude_deg = 11
          skyline = "0:5,90:12" # measured "in May" # twice

        [receiver]
        # signal = ""
        """;

    [Fact]
    public void A_key_that_is_there_changes_its_value_and_keeps_its_comment()
    {
        string after = Changed(Two, "barn # 2", "180:7");
        Assert.Equal(Two.Replace("skyline = \"0:5,90:12\" # measured", "skyline = \"180:7\"  # measured", StringComparison.Ordinal), after);
    }

    [Fact]
    public void A_key_that_is_not_there_comes_behind_the_last_of_its_place()
    {
        string after = Changed(Two, "Meadow", "180:7");
        Assert.Equal(Two.Replace("longitude_deg = 11.2\n", "longitude_deg = 11.2\nskyline = \"180:7\"\n", StringComparison.Ordinal), after);
    }

    [Fact]
    public void Line_ends_of_another_system_stay()
    {
        string windows = Two.Replace("\n", "\r\n", StringComparison.Ordinal);
        Assert.Equal(Changed(Two, "meadow", "180:7").Replace("\n", "\r\n", StringComparison.Ordinal), Changed(windows, "meadow", "180:7"));
        Assert.Equal(Changed(Two, "barn # 2", "1:1").Replace("\n", "\r\n", StringComparison.Ordinal), Changed(windows, "barn # 2", "1:1"));
    }

    [Theory]
    [InlineData("version = 1", "meadow", "s.toml: there is no place in it; cockpit place add makes one")]
    [InlineData(Two, "roof", "s.toml: there is no place 'roof' in it; there is meadow, barn # 2")]
    [InlineData("places = [{ name = \"meadow\", latitude_deg = 1, longitude_deg = 2, skyline = \"1:2\" }]", "meadow", "s.toml:1: skyline cannot be changed there by a program; write it yourself: skyline = \"180:7\"")]
    [InlineData("[[places]]\nname = \"meadow\"\nlatitude_deg = 1\nlongitude_deg = 2\nskyline = \"\"\"\n1:2\"\"\"\n", "meadow", "s.toml:1: skyline cannot be changed there by a program; write it yourself: skyline = \"180:7\"")]
    public void What_cannot_be_changed_is_told_and_left_alone(string text, string place, string sentence)
    {
        Assert.False(SettingsChange.OfPlace(text, "s.toml", place, "skyline", "180:7").Try(out _, out ParseError? error));
        Assert.Equal(sentence, error.ToString());
    }

    [Fact]
    public void Samples_of_the_receiver_are_told_behind_its_address()
    {
        StoredSettings settings = SettingsReader.Read("[receiver]\nsignal = \"tcp://127.0.0.1:1234\"\niq_format = \"ci16\"\nsample_rate = 3e6\ncenter_mhz = 1701.3\n[sound]\nvolume_db = -6\n", "s.toml");
        Assert.Empty(settings.Mistakes);
        string[] words = [.. StoredOption.Of(settings, null).Select(option => option.Word)];
        Assert.Equal(["--signal=tcp://127.0.0.1:1234?format=ci16&rate=3000000&center=1701.3MHz", "--volume=-6"], words);
    }

    private static string Changed(string text, string place, string value)
    {
        Assert.True(SettingsChange.OfPlace(text, "s.toml", place, "skyline", value).Try(out string? after, out ParseError? error), error?.ToString());
        return after;
    }
}
