namespace Cockpit.Tests.Commands;

/// <summary>What the screen of the sample session showed; its demo puts something in the way from 10:37:27 on for five seconds.</summary>
public sealed class ReplayTextTests
{
    private static readonly string Sample = Path.Combine(Repository.Root, "sessions", "sample-petrel-2");

    private static string[] Heads(CommandRun run) => [.. run.Output.Split(Environment.NewLine).Where(line => line.StartsWith("== ", StringComparison.Ordinal))];

    [Fact]
    public async Task Pages_are_printed_in_order_of_time_whichever_way_they_are_named()
    {
        CommandRun run = await CommandRun.Of("replay", Sample, "--text", "00:30,2026-11-25T10:37:05Z,00:05");
        Assert.Equal((0, ""), (run.ExitCode, run.Error));
        Assert.Equal(
            ["== 00:00:05 of 00:00:41, 2026-11-25 10:36:59 UTC", "== 00:00:09 of 00:00:41, 2026-11-25 10:37:04 UTC", "== 00:00:30 of 00:00:41, 2026-11-25 10:37:24 UTC"],
            Heads(run));
        string[] lines = run.Output.Split(Environment.NewLine);
        Assert.Contains(lines, line => line.Contains("‖ 00:05 of 00:41", StringComparison.Ordinal));
        Assert.All(lines, line => Assert.True(line.Length <= 80, line));
    }

    [Fact]
    public async Task The_gaps_are_those_of_the_review_and_the_level_is_down_in_them()
    {
        CommandRun run = await CommandRun.Of("replay", Sample, "--text", "gaps", "--size", "120x40");
        string fade = Assert.Single(Heads(run), head => head.Contains("fade", StringComparison.Ordinal));
        Assert.Matches("2026-11-25 10:37:2[67] UTC: gap: [0-9]+ lines, fade", fade);
    }

    [Fact]
    public async Task The_time_line_marks_what_it_can_jump_to()
    {
        CommandRun run = await CommandRun.Of("replay", Sample, "--text", "marks");
        string line = Assert.Single(run.Output.Split(Environment.NewLine), line => line.StartsWith(" all ", StringComparison.Ordinal));
        Assert.Contains('█', line);
        Assert.Contains("▒", line, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_moment_after_the_end_shows_the_end()
    {
        CommandRun run = await CommandRun.Of("replay", Sample, "--text", "59:00");
        Assert.Equal(["== 00:00:41 of 00:00:41, 2026-11-25 10:37:36 UTC"], Heads(run));
    }

    [Fact]
    public async Task The_same_page_comes_out_twice()
    {
        CommandRun first = await CommandRun.Of("replay", Sample, "--text", "00:20,alarms");
        CommandRun second = await CommandRun.Of("replay", Sample, "--text", "00:20,alarms");
        Assert.Equal(first.Output, second.Output);
    }
}
