namespace Cockpit.Tests.Commands;

public sealed class CheckGuidanceCommandTests
{
    [Fact]
    public async Task The_comparison_has_a_row_for_each_way_of_steering_and_guidance_wins()
    {
        CommandRun run = await CommandRun.Of("check", "guidance", "--seeds", "1", "--format", "csv");
        Assert.Equal("", run.Error);
        Assert.Equal(0, run.ExitCode);
        string[] lines = run.Output.Split('\n', StringSplitOptions.RemoveEmptyEntries);
        Assert.Equal(["steering", "perfect", "hold plan", "unguided", "unguided", "guided", "guided"], lines.Select(l => l.Split(',')[0]));
        Assert.All(lines.Skip(1), l => Assert.Equal(lines[0].Split(',').Length, l.Split(',').Length));
    }

    [Theory]
    [InlineData("0", "0", "--seeds: '0' is not a whole number from 1 to 200")]
    [InlineData("201", "0", "--seeds: '201' is not a whole number from 1 to 200")]
    [InlineData("1", "-1", "--first: '-1' is not a whole number from 0 to 2147483647")]
    public async Task A_number_of_seeds_that_cannot_be_is_refused(string seeds, string first, string sentence)
    {
        CommandRun run = await CommandRun.Of("check", "guidance", "--seeds", seeds, "--first", first);
        Assert.Equal(2, run.ExitCode);
        Assert.Equal($"{sentence}; see cockpit check guidance --help\n", run.Error);
    }
}
