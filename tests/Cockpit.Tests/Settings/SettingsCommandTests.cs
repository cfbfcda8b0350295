using Cockpit.Commands;
using Cockpit.Tests.Commands;

namespace Cockpit.Tests.Settings;

/// <summary>What is set once need not be typed again.</summary>
public sealed class SettingsCommandTests : IDisposable
{
    private static readonly string Elements = Path.Combine(Repository.Root, "tests", "data", "reference", "satellites.tle");

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("cockpit-settings-");

    private string Settings => Path.Combine(_folder.FullName, "cockpit", "settings.toml");

    public void Dispose() => _folder.Delete(recursive: true);

    private async Task<CommandRun> Run(params string[] args)
    {
        using StringWriter output = new();
        using StringWriter error = new();
        int code = await CommandRoot.RunAsync(args, output, error, Settings);
        return new CommandRun(code, output.ToString(), error.ToString());
    }

    private void Write(string text)
    {
        Directory.CreateDirectory(Path.GetDirectoryName(Settings)!);
        File.WriteAllText(Settings, text);
    }

    [Fact]
    public async Task A_command_takes_from_the_settings_what_it_was_not_told()
    {
        CommandRun made = await Run("settings", "new", "--settings", Settings, "--station", "47.8,11.2,520", "--elements", Elements);
        Assert.Equal((0, ""), (made.ExitCode, made.Error));
        string[] asked = ["passes", "--from", "2026-11-26T17:00:00Z", "--for", "6h", "--format", "csv"];
        CommandRun typed = await CommandRun.Of([.. asked, "--station", "47.8,11.2,520", "--elements", Elements]);
        CommandRun stored = await Run(asked);
        Assert.Equal(typed, stored);
        Assert.True(stored.Output.Length > 200);
    }

    [Fact]
    public async Task An_option_goes_before_the_settings()
    {
        Write("[[places]]\nname = \"a\"\nlatitude_deg = -47.8\nlongitude_deg = 11.2\n");
        CommandRun own = await Run("bearing", "--at", "2026-11-26T12:00:00Z", "--format", "json");
        CommandRun other = await Run("bearing", "--at", "2026-11-26T12:00:00Z", "--format", "json", "--station", "47.8,11.2");
        Assert.Equal((0, 0), (own.ExitCode, other.ExitCode));
        Assert.NotEqual(own.Output, other.Output);
        Assert.Equal(await CommandRun.Of("bearing", "--at", "2026-11-26T12:00:00Z", "--format", "json", "--station=-47.8,11.2"), own);
    }

    [Fact]
    public async Task Of_several_places_the_named_one_holds()
    {
        Write("place = \"b\"\n[[places]]\nname = \"a\"\nlatitude_deg = 1\nlongitude_deg = 2\n[[places]]\nname = \"b\"\nlatitude_deg = 3\nlongitude_deg = 4\naltitude_m = 5\n");
        CommandRun run = await Run("settings", "--settings", Settings, "--format", "csv");
        Assert.Contains("station,\"3,4,5\",settings.toml:6", run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_downlink_of_a_favourite_comes_with_its_satellite()
    {
        Write($"[[places]]\nname = \"a\"\nlatitude_deg = 47.8\nlongitude_deg = 11.2\n[elements]\nfile = '{Elements}'\n[[favourites]]\nsatellite = 99129\n[[favourites.downlinks]]\nfrequency_mhz = 1698.0\n");
        string[] asked = ["look", "--satellite", "99129", "--at", "2026-11-26T17:50:30Z"];
        CommandRun stored = await Run(asked);
        Assert.Equal(await CommandRun.Of([.. asked, "--station", "47.8,11.2", "--elements", Elements, "--frequency", "1698MHz"]), stored);
        Assert.Equal(0, stored.ExitCode);
    }

    [Fact]
    public async Task A_relative_path_belongs_to_the_folder_of_the_file()
    {
        Write("[[places]]\nname = \"a\"\nlatitude_deg = 47.8\nlongitude_deg = 11.2\n[elements]\nfile = \"sets.tle\"\n");
        File.Copy(Elements, Path.Combine(Path.GetDirectoryName(Settings)!, "sets.tle"));
        Assert.Equal(0, (await Run("passes", "--for", "1h", "--from", "2026-11-26T17:00:00Z")).ExitCode);
    }

    [Fact]
    public async Task Mistakes_are_told_and_the_rest_goes_on()
    {
        Write("[[places]]\nname = \"a\"\nlatitude_deg = 47.8\nlongitude_deg = 11.2\n[screen]\ntheme = 3\n");
        CommandRun run = await Run("bearing", "--at", "2026-11-26T12:00:00Z");
        Assert.Equal(0, run.ExitCode);
        Assert.Equal($"{Settings}:6:9: theme is a text in quotes (passed over){Environment.NewLine}", run.Error);
    }

    [Fact]
    public async Task A_check_or_a_filter_says_the_same_with_and_without_settings()
    {
        Write("[screen]\ntheme = 3\n[[places]]\nname = \"a\"\nlatitude_deg = 47.8\nlongitude_deg = 11.2\n");
        CommandRun run = await Run("guide", "--elements", Elements);
        Assert.Equal(2, run.ExitCode);
        Assert.Contains("--station", run.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("theme", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Settings_that_were_named_have_to_be_there()
    {
        CommandRun run = await Run("bearing", "--settings", Path.Combine(_folder.FullName, "no.toml"), "--station", "1,2");
        Assert.Equal(2, run.ExitCode);
        Assert.Contains("there is no such file of settings; cockpit settings new writes one", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Without_a_file_nothing_is_said_of_settings()
    {
        CommandRun run = await Run("bearing", "--at", "2026-11-26T12:00:00Z", "--station", "1,2");
        Assert.Equal((0, ""), (run.ExitCode, run.Error));
    }

    [Fact]
    public async Task A_file_that_is_there_is_never_written_over()
    {
        Write("# mine\n");
        CommandRun run = await Run("settings", "new", "--settings", Settings, "--station", "1,2");
        Assert.Equal(2, run.ExitCode);
        Assert.Equal("# mine\n", await File.ReadAllTextAsync(Settings));
    }

    [Fact]
    public async Task Place_dish_and_favourite_are_added_and_hold()
    {
        Write("# mine\n\n");
        Assert.Equal(0, (await Run("place", "add", "meadow", "--station", "47.8,11.2,520", "--horizon", "200:12,240:18", "--settings", Settings)).ExitCode);
        Assert.Equal(0, (await Run("dish", "add", "grid", "--dish", "1", "--mount", "free", "--settings", Settings)).ExitCode);
        Assert.Equal(0, (await Run("favourite", "add", "PETREL 2", "--frequency", "1701.5MHz", "--settings", Settings)).ExitCode);
        CommandRun shown = await Run("settings", "--settings", Settings, "--format", "csv");
        Assert.Contains("places.skyline,\"200:12,240:18\",settings.toml:9", shown.Output, StringComparison.Ordinal);
        Assert.Contains("dishes.mount,free,settings.toml:14", shown.Output, StringComparison.Ordinal);
        Assert.Contains("favourite,PETREL 2 1701.5 MHz,settings.toml:16", shown.Output, StringComparison.Ordinal);
        Assert.StartsWith("# mine\n\n", await File.ReadAllTextAsync(Settings), StringComparison.Ordinal);
        CommandRun check = await Run("settings", "check", Settings);
        Assert.Equal((0, ""), (check.ExitCode, check.Error));
    }

    [Fact]
    public async Task The_settings_of_an_option_are_shown_as_such()
    {
        Write("");
        CommandRun run = await Run("settings", "--settings", Settings, "--dish", "1.2", "--format", "csv");
        Assert.Contains("dishes.diameter_m,1.2,option --dish", run.Output, StringComparison.Ordinal);
        Assert.Contains("dishes.noise_figure_db,0.7,usual", run.Output, StringComparison.Ordinal);
    }
}
