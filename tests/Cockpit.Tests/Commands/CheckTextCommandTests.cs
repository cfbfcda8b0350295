namespace Cockpit.Tests.Commands;

public sealed class CheckTextCommandTests
{
    [Fact]
    public async Task A_thousand_names_of_any_unicode_go_through_everything_and_no_control_character_comes_out()
    {
        CommandRun run = await CommandRun.Of("check", "text", "--names", "1000", "--seed", "1");
        Assert.Equal((0, ""), (run.ExitCode, run.Error));
        Assert.EndsWith("1000 names: 0 failures, 0 raw control characters", run.Output.TrimEnd(), StringComparison.Ordinal);
        string[] ways = [.. run.Output.Split('\n').Select(line => line.Split(' ')[0])];
        Assert.Superset(new HashSet<string>(["calendar", "check", "live", "look", "passes", "replay", "session"], StringComparer.Ordinal), new HashSet<string>(ways, StringComparer.Ordinal));
    }
}
