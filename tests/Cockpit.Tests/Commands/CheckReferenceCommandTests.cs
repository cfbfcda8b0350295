namespace Cockpit.Tests.Commands;

public sealed class CheckReferenceCommandTests
{
    [Fact]
    public async Task Every_published_table_agrees_and_has_its_line()
    {
        CommandRun run = await CommandRun.Of("check", "reference", ReferenceFiles.Folder);
        string[] lines = run.Output.Split('\n', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        Assert.Equal((0, ""), (run.ExitCode, run.Error));
        Assert.EndsWith(", 0 outside their tolerance", lines[^1], StringComparison.Ordinal);
        Assert.All(lines[..^1], line => Assert.StartsWith("ok", line, StringComparison.Ordinal));
        foreach (string folder in new[] { "01_sgp4", "02_look", "03_passes", "04_doppler", "05_sun", "06_magnetic", "07_refraction", "08_geodesy", "09_omm_tle", "10_link" })
        {
            Assert.Contains(lines, line => line.Contains(folder, StringComparison.Ordinal));
        }
    }

    [Fact]
    public async Task Each_case_of_the_propagator_has_its_line_on_request()
    {
        CommandRun run = await CommandRun.Of("check", "reference", ReferenceFiles.Folder, "--cases");
        Assert.Equal(0, run.ExitCode);
        Assert.Equal(33, run.Output.Split('\n').Count(line => line.StartsWith("case ", StringComparison.Ordinal)));
        Assert.Contains("case 33, object 20413: 71 states, ", run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_folder_that_is_not_there_or_not_whole_is_named()
    {
        CommandRun missing = await CommandRun.Of("check", "reference", "nowhere");
        Assert.Equal((2, "", "nowhere: there is no such folder; give the folder of the reference values" + Environment.NewLine), (missing.ExitCode, missing.Output, missing.Error));

        CommandRun empty = await CommandRun.Of("check", "reference", Path.Combine(ReferenceFiles.Folder, "08_geodesy"));
        Assert.Equal((2, ""), (empty.ExitCode, empty.Output));
        Assert.EndsWith("; the folder of the reference values must be whole" + Environment.NewLine, empty.Error, StringComparison.Ordinal);
    }
}
