using Cockpit.Commands;

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

    // A number that does not fit, an empty path, a year without elements: each once ended in a stack trace.
    [Theory]
    [InlineData("--times: '99999999999' is not a whole number from 1 to 1000; see cockpit cue --help", "cue", "--all", "--times", "99999999999")]
    [InlineData("--seeds: '99999999999' is not a whole number from 1 to 200; see cockpit check guidance --help", "check", "guidance", "--seeds", "99999999999")]
    [InlineData("--at: '9999-12-31T23:59:59Z' is outside the years 1957 to 2200, where no elements are good; see cockpit live --help", "live", "--elements", "x", "--station", "47.8,11.2", "--at", "9999-12-31T23:59:59Z")]
    [InlineData("--horizon: the path is empty; give the path of a text file", "passes", "--elements", "x", "--station", "47.8,11.2", "--horizon", "")]
    [InlineData("--elements: the path is empty; give the path of a TLE or OMM file", "passes", "--elements", "", "--station", "47.8,11.2")]
    [InlineData("--dut1: '0,0' is not UT1 - UTC; write seconds from -1 to 1, like -0.05; see cockpit passes --help", "passes", "--elements", "x", "--station", "47.8,11.2", "--dut1", "0,0")]
    [InlineData("--skill: 'expert' is not a hand; choose learnt, novice or practised; see cockpit live --help", "live", "--elements", "x", "--station", "47.8,11.2", "--skill", "expert")]
    [InlineData("--form: 'xml' is not known; choose pairs or number or json; see cockpit simulate signal --help", "simulate", "signal", "--to", "-", "--form", "xml")]
    public async Task Wrong_values_get_one_sentence_in_our_own_words(string sentence, params string[] words)
    {
        CommandRun run = await CommandRun.Of(words);
        Assert.Equal((2, "", sentence), (run.ExitCode, run.Output, run.Error.TrimEnd()));
    }

    // The same dish in every command: what one of them lists, the others can fly.
    [Theory]
    [InlineData("passes", "--elements", "x", "--station", "47.8,11.2")]
    [InlineData("live", "--elements", "x", "--station", "47.8,11.2")]
    [InlineData("simulate", "signal")]
    public async Task A_dish_may_have_the_same_diameters_everywhere(params string[] command)
    {
        CommandRun run = await CommandRun.Of([.. command, "--dish", "11"]);
        Assert.Equal(2, run.ExitCode);
        Assert.Contains("--dish: '11' is not a number from 0.2 to 10", run.Error, StringComparison.Ordinal);
        run = await CommandRun.Of([.. command, "--dish", "10", "--frobnicate"]);
        Assert.DoesNotContain("--dish", run.Error, StringComparison.Ordinal);
        CommandRun help = await CommandRun.Of([.. command, "--help"]);
        Assert.Contains("Diameter of the dish in metres; 0.8 where missing", string.Join(' ', help.Output.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--help")]
    [InlineData("cue", "--table")]
    public async Task An_output_that_takes_nothing_more_is_told_in_one_sentence(params string[] words)
    {
        using FullWriter full = new();
        using StringWriter error = new();
        Assert.Equal(1, await CommandRoot.RunAsync(words, full, error));
        Assert.Equal("the output cannot be written: No space left on device; the rest of it is missing" + Environment.NewLine, error.ToString());
        Assert.Equal(1, await CommandRoot.RunAsync(words, full, full));
        Assert.Equal(2, await CommandRoot.RunAsync(["--frobnicate"], full, full));
    }

    private sealed class FullWriter : StringWriter
    {
        public override void Write(char value) => throw Full();

        public override void Write(string? value) => throw Full();

        public override void Write(char[] buffer, int index, int count) => throw Full();

        private static IOException Full() => new("No space left on device : '/dev/full'");
    }
}
