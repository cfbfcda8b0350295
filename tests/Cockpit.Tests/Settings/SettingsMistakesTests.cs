using Cockpit.Checks;
using Cockpit.Settings.Stored;

namespace Cockpit.Tests.Settings;

/// <summary>Settings with mistakes, each with its exact sentences (tests/data/settings/mistakes.txt).</summary>
public sealed class SettingsMistakesTests
{
    private static readonly string Cases = Path.Combine(Repository.Root, "tests", "data", "settings", "mistakes.txt");

    public static TheoryData<string, string, string> All()
    {
        TheoryData<string, string, string> data = [];
        foreach (string block in File.ReadAllText(Cases).Split("=== ").Skip(1))
        {
            string[] parts = block.Split("---\n");
            int end = parts[0].IndexOf('\n', StringComparison.Ordinal);
            data.Add(parts[0][..end], parts[0][(end + 1)..], parts[1].Trim());
        }

        return data;
    }

    [Fact]
    public void There_are_at_least_forty_of_them() => Assert.True(All().Count >= 40);

    [Theory]
    [MemberData(nameof(All))]
    public void Each_mistake_is_named_with_line_and_column(string name, string text, string sentences)
    {
        StoredSettings settings = SettingsReader.Read(text, "f");
        Assert.Equal(sentences.Split('\n').Select(line => "f:" + line.Trim()), settings.Mistakes.Select(mistake => mistake.ToString()));
        Assert.NotEmpty(name);
    }

    [Fact]
    public void What_is_good_in_a_bad_file_holds()
    {
        StoredSettings settings = SettingsReader.Read("[screen]\ntheme = 3\nnorth = \"compass\"\n[[places]]\nname = \"a\"\n[[places]]\nname = \"b\"\nlatitude_deg = 1\nlongitude_deg = 2\n", "f");
        Assert.Equal(2, settings.Mistakes.Length);
        Assert.Equal("compass", settings.Root.One("screen")?.Text("north"));
        Assert.Equal("b", settings.Place?.Text("name"));
    }

    [Fact]
    public void A_file_of_a_newer_version_is_read_as_far_as_it_is_known()
    {
        StoredSettings settings = SettingsReader.Read("version = 2\nfuture = true\n[screen]\ntheme = \"day\"\nshape = \"round\"\n", "f");
        Assert.Empty(settings.Mistakes);
        Assert.Contains("newer version", settings.Caution, StringComparison.Ordinal);
        Assert.Equal("day", settings.Root.One("screen")?.Text("theme"));
    }

    [Fact]
    public void Damaged_files_give_values_and_mistakes_and_nothing_else()
    {
        SettingsMutations run = new(7);
        for (int i = 0; i < 1500; i++)
        {
            run.Next();
        }

        Assert.Equal(0, run.Misplaced);
        Assert.True(run.Mistakes > 1000 && run.Values > 5000, $"{run.Mistakes} mistakes, {run.Values} values");
    }

    [Theory]
    [InlineData("latitude", "latitude_deg")]
    [InlineData("THEME", "theme")]
    [InlineData("nort", "north")]
    [InlineData("northt", "north")]
    [InlineData("nroth", "north")]
    [InlineData("brightness", null)]
    [InlineData("", null)]
    public void The_nearest_known_word_is_the_one_that_was_meant(string text, string? word) =>
        Assert.Equal(word, NearestWord.Of(text, ["latitude_deg", "altitude_m", "theme", "north"]));
}
