using Cockpit.Commands;

namespace Cockpit.EndToEnd.Tests;

/// <summary>look and passes with files that people write, good and bad.</summary>
public sealed class SkyFilesTests : IDisposable
{
    private static readonly string Elements = Path.Combine(AppContext.BaseDirectory, "data", "reference", "satellites.tle");

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("cockpit-sky-");

    [Fact]
    public async Task Instants_from_a_file_are_those_of_the_command_line()
    {
        string times = Write("times.txt", "# first light\n2026-11-25T17:24:40Z\n\n2026-11-25T18:24:50+01:00\n");
        Run file = await Of("look", "--elements", Elements, "--station", "47.8,11.2", "--times", times);
        Run list = await Of("look", "--elements", Elements, "--station", "47.8,11.2", "--at", "2026-11-25T17:24:40Z,2026-11-25T17:24:50Z");
        Assert.Equal(list, file);
        Assert.Equal(1 + (6 * 2), file.Output.Split('\n', StringSplitOptions.RemoveEmptyEntries).Length);
    }

    [Fact]
    public async Task A_wrong_instant_in_a_file_is_told_with_its_line()
    {
        string times = Write("times.txt", "2026-11-25T17:24:40Z\nnoon\n");
        Assert.Equal(
            new Run(2, "", $"{times}:2: 'noon' is not an instant; write it like 2026-11-25T10:15:00Z" + Environment.NewLine),
            await Of("look", "--elements", Elements, "--station", "47.8,11.2", "--times", times));
    }

    [Fact]
    public async Task A_skyline_from_a_file_is_that_of_the_command_line()
    {
        string hills = Write("hills.txt", "# azimuth elevation\n0 5\n90 30  # the barn\n180 5\n");
        Run file = await Passes("--horizon", hills);
        Assert.Equal(0, file.Code);
        Assert.Equal(await Passes("--horizon", "0:5,90:30,180:5"), file);
        Assert.NotEqual(await Passes(), file);
    }

    [Fact]
    public async Task A_wrong_skyline_is_told_with_its_line()
    {
        string hills = Write("hills.txt", "0 5\n90 95\n");
        Assert.Equal(
            new Run(2, "", $"{hills}:2: elevation 95 is outside -10 to below 90; write an azimuth and an elevation in degrees, like 200 12" + Environment.NewLine),
            await Passes("--horizon", hills));
    }

    [Fact]
    public async Task A_bad_element_set_is_told_and_the_good_ones_beside_it_are_used()
    {
        string[] lines = await File.ReadAllLinesAsync(Elements);
        lines[2] = lines[2].Replace("26328.24903196", "26328.24903197", StringComparison.Ordinal); // the checksum no longer fits
        string mixed = Write("mixed.tle", string.Join('\n', lines));
        Run run = await Of("look", "--elements", mixed, "--station", "47.8,11.2", "--at", "2026-11-25T17:24:40Z");
        Assert.Equal(0, run.Code);
        Assert.Equal(1 + 5, run.Output.Split('\n', StringSplitOptions.RemoveEmptyEntries).Length);
        Assert.StartsWith($"{mixed}:3:", run.Error, StringComparison.Ordinal);
        Assert.Contains("checksum", run.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("")]
    [InlineData("\0\u0001binary\u0002")]
    [InlineData("no elements here\n")]
    public async Task A_file_without_elements_is_refused_in_one_sentence(string content)
    {
        Run run = await Of("passes", "--elements", Write("bad.tle", content), "--station", "47.8,11.2");
        Assert.Equal((2, ""), (run.Code, run.Output));
        Assert.Contains("bad.tle", Assert.Single(run.Error.Split(Environment.NewLine, StringSplitOptions.RemoveEmptyEntries)), StringComparison.Ordinal);
    }

    public void Dispose() => _folder.Delete(recursive: true);

    private static Task<Run> Passes(params string[] more) =>
        Of(["passes", "--elements", Elements, "--station", "47.8,11.2,520", "--from", "2026-11-25T00:00:00Z", "--for", "12h", "--format", "csv", .. more]);

    private static async Task<Run> Of(params string[] args)
    {
        using var output = new StringWriter();
        using var error = new StringWriter();
        int code = await CommandRoot.RunAsync(args, output, error);
        return new Run(code, output.ToString(), error.ToString());
    }

    private string Write(string name, string content)
    {
        string path = Path.Combine(_folder.FullName, name);
        File.WriteAllText(path, content);
        return path;
    }

    private sealed record Run(int Code, string Output, string Error);
}
