namespace Cockpit.Tests.Commands;

public sealed class CommandRootTests
{
    [Fact]
    public async Task An_unknown_option_is_named_in_one_line_on_the_error_side_and_exits_2()
    {
        CommandRun run = await CommandRun.Of("--frobnicate");
        Assert.Equal(2, run.ExitCode);
        Assert.Equal("", run.Output);
        Assert.Equal("Unrecognized command or argument '--frobnicate'; see cockpit --help" + Environment.NewLine, run.Error);
    }

    [Fact]
    public async Task Help_goes_to_the_output_and_exits_0()
    {
        CommandRun run = await CommandRun.Of("--help");
        Assert.Equal(0, run.ExitCode);
        Assert.Contains("--version", run.Output, StringComparison.Ordinal);
        Assert.Equal("", run.Error);
    }
}
