namespace Cockpit.Tests.Commands;

public sealed class CheckFormatsCommandTests
{
    [Fact]
    public async Task As_many_damaged_files_are_read_as_asked_for()
    {
        CommandRun run = await CommandRun.Of("check", "formats", "--mutations", "300", "--seed", "7");
        Assert.Equal((0, ""), (run.ExitCode, run.Error));
        Assert.StartsWith("300 damaged files: ", run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task None_at_all_is_refused()
    {
        CommandRun run = await CommandRun.Of("check", "formats", "--mutations", "0");
        Assert.Equal((2, "", "--mutations: '0' is not a whole number from 1 to 2147483647; see cockpit check formats --help" + Environment.NewLine), (run.ExitCode, run.Output, run.Error));
    }
}
