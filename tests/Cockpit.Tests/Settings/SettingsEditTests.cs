using Cockpit.Core.Formats;
using Cockpit.Settings.Stored;

namespace Cockpit.Tests.Settings;

public sealed class SettingsEditTests
{
    private const string Own = "# my own words\n\nversion = 1   # the form\n\n\n[[places]]   # at home\nname='a'\nlatitude_deg = 1 # one\nlongitude_deg=2\n\n# the end\n";

    private static readonly SettingTable Places = SettingSchema.Root.Tables.First(table => table.Name == "places");

    private static Dictionary<(string, string), string> Place(string name) =>
        new() { [("places", "name")] = name, [("places", "latitude_deg")] = "47.8", [("places", "longitude_deg")] = "-11.2" };

    [Theory]
    [InlineData(Own)]
    [InlineData("")]
    [InlineData("# no line end")]
    [InlineData("[screen]\r\ntheme = \"day\"\r\n")]
    [InlineData("[[favourites]]\nsatellite = 5\n[[favourites.downlinks]]\nfrequency_mhz = 1701.5\n")]
    public void What_stands_there_stays_letter_by_letter(string before)
    {
        Assert.True(SettingsEdit.Add(before, "f", Places, Place("hill"), "name").Try(out string? after, out ParseError? error), error?.ToString());
        Assert.StartsWith(before, after, StringComparison.Ordinal);
        StoredSettings read = SettingsReader.Read(after, "f");
        Assert.Empty(read.Mistakes);
        StoredTable hill = read.Root.All("places").Single(place => place.Text("name") == "hill");
        Assert.Equal((47.8, -11.2), (hill.Number("latitude_deg"), hill.Number("longitude_deg")));
        Assert.Equal(before.Contains("\r\n", StringComparison.Ordinal), after[before.Length..].Contains("\r\n", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("Günters \"Feld\"")]
    [InlineData("C:\\field")]
    [InlineData("#[[places]]")]
    [InlineData("'")]
    public void A_name_comes_back_as_it_was_given(string name)
    {
        Assert.True(SettingsEdit.Add(Own, "f", Places, Place(name), "name").Try(out string? after, out _));
        Assert.Equal(["a", name], SettingsReader.Read(after, "f").Root.All("places").Select(place => place.Text("name")));
    }

    [Fact]
    public void A_name_that_is_there_is_refused_with_its_line()
    {
        Assert.False(SettingsEdit.Add(Own, "f", Places, Place("A"), "name").Try(out _, out ParseError? error));
        Assert.Equal("f:6: 'A' is there already; change it in the file, or take another name", error.ToString());
    }

    [Theory]
    [InlineData("places = [{ name = \"a\", latitude_deg = 1, longitude_deg = 2 }]\n")]
    [InlineData("[elements]\nfile = \"\"\"x\n")]
    public void A_file_that_cannot_take_it_is_left_alone(string before) =>
        Assert.False(SettingsEdit.Add(before, "f", Places, Place("hill"), "name").Try(out _, out _));

    [Fact]
    public void A_new_file_has_no_mistakes_and_a_comment_beside_every_key()
    {
        string text = SettingsText.New(Place("home"));
        Assert.Empty(SettingsReader.Read(text, "f").Mistakes);
        foreach (SettingTable table in SettingSchema.Root.Tables)
        {
            Assert.All(table.Keys, key => Assert.Contains($"{key.Name} = ", text, StringComparison.Ordinal));
        }
    }
}
