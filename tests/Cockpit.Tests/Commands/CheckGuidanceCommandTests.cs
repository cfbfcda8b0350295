using Cockpit.Checks;
using Cockpit.Core.Formats;

namespace Cockpit.Tests.Commands;

public sealed class CheckGuidanceCommandTests
{
    [Fact]
    public async Task The_comparison_has_a_row_for_each_way_of_steering_and_guidance_wins()
    {
        CommandRun run = await CommandRun.Of("check", "guidance", "--seeds", "1", "--passes", "30,60", "--format", "csv");
        Assert.Equal("", run.Error);
        Assert.Equal(0, run.ExitCode);
        string[] lines = run.Output.Split('\n', StringSplitOptions.RemoveEmptyEntries);
        Assert.Equal(["steering", "perfect", "hold-plan", "unguided", "unguided", "guided", "guided"], lines.Select(l => l.Split(',')[0]));
        Assert.All(lines.Skip(1), l => Assert.Equal(lines[0].Split(',').Length, l.Split(',').Length));
    }

    // Few passes: the bounds have room for their scatter. The full table: the README.
    [Fact]
    public async Task A_sensor_that_is_learnt_from_the_signal_helps_and_one_that_is_believed_as_it_is_leads_astray()
    {
        CommandRun run = await CommandRun.Of(
            "check", "guidance", "--world", "today", "--seeds", "2", "--first", "3", "--passes", "45", "--hand", "novice", "--steering", "perfect,sensor-and-signal,raw-sensor", "--format", "csv");
        Assert.Equal("", run.Error);
        double[] lost = [.. run.Output.Split('\n', StringSplitOptions.RemoveEmptyEntries).Skip(1).Select(l => double.Parse(l.Split(',')[4], System.Globalization.CultureInfo.InvariantCulture))];
        Assert.InRange(lost[1], lost[0], 5.0);
        Assert.True(lost[2] > 2.0 * lost[1], $"raw {lost[2]}, learnt {lost[1]}");
    }

    [Fact]
    public async Task Cases_of_a_sensor_need_a_hand_that_is_guided_by_one()
    {
        CommandRun run = await CommandRun.Of("check", "guidance", "--seeds", "1", "--steering", "guided", "--sensor-cases");
        Assert.Equal((2, "--sensor-cases: nobody is guided by sensor and signal; add sensor-and-signal to --steering\n"), (run.ExitCode, run.Error));
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

    [Fact]
    public async Task A_world_and_a_hand_come_from_files_of_their_parameters()
    {
        string world = Path.GetTempFileName();
        string hand = Path.GetTempFileName();
        try
        {
            await File.WriteAllTextAsync(world, """{"like": "today", "name": "calm", "fading_factor": 0.0, "margin_at30_db": 30.0}""");
            await File.WriteAllTextAsync(hand, """{"like": "practised", "name": "steady", "lapse": 0.0}""");
            CommandRun run = await CommandRun.Of(
                "check", "guidance", "--seeds", "1", "--passes", "45", "--steering", "perfect,guided", "--world", world, "--hand", hand, "--format", "csv");
            Assert.Equal("", run.Error);
            string[] lines = run.Output.Split('\n', StringSplitOptions.RemoveEmptyEntries);
            Assert.StartsWith("perfect,,,0.000,", lines[1], StringComparison.Ordinal);
            Assert.StartsWith("guided,steady,", lines[2], StringComparison.Ordinal);
        }
        finally
        {
            File.Delete(world);
            File.Delete(hand);
        }
    }

    [Theory]
    [InlineData("""{"lapses": 0.1}""", "there is no parameter 'lapses'")]
    [InlineData("""{"like": "me"}""", "\"like\" is 'me': expected novice or practised")]
    [InlineData("""{"lapse": "often"}""", "not JSON with the right kinds of values: see $.lapse")]
    [InlineData("""[1]""", "expected one JSON object")]
    [InlineData("""{"lapse": """, "not JSON")]
    public void A_hand_that_cannot_be_read_is_refused_with_the_place(string text, string complaint)
    {
        Assert.False(ModelFile.Hand("my-hand.json", text).Try(out _, out ParseError? error));
        Assert.Equal("my-hand.json", error!.Source);
        Assert.Contains(complaint, error.Message, StringComparison.Ordinal);
    }
}
