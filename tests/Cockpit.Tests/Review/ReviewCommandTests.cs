using System.Text.Json;
using Cockpit.Tests.Commands;

namespace Cockpit.Tests.Review;

public sealed class ReviewCommandTests
{
    private static readonly string Sample = Path.Combine(Repository.Root, "sessions", "sample-petrel-2");

    // The demo's first obstruction takes 12 dB from 10:37:27 on for five seconds.
    [Fact]
    public async Task The_json_names_the_obstruction_of_the_sample()
    {
        CommandRun run = await CommandRun.Of("review", Sample, "--format", "json");
        Assert.Equal((0, ""), (run.ExitCode, run.Error));
        using var json = JsonDocument.Parse(run.Output);
        JsonElement lines = json.RootElement.GetProperty("lines");
        Assert.Equal("frames", lines.GetProperty("by").GetString());
        Assert.Equal(lines.GetProperty("sent").GetInt32(), lines.GetProperty("received").GetInt32() + lines.GetProperty("lost").GetInt32());
        JsonElement fade = json.RootElement.GetProperty("gaps").EnumerateArray().MaxBy(g => g.GetProperty("lines").GetInt32());
        Assert.Equal("fade", fade.GetProperty("cause").GetString());
        Assert.StartsWith("2026-11-25T10:37:2", fade.GetProperty("from_utc").GetString(), StringComparison.Ordinal);
        Assert.InRange(fade.GetProperty("confidence").GetDouble(), 0.5, 1.0);
        Assert.Equal(
            ["reaction_s", "amount", "direction_deg", "nudges", "planned", "marks", "reactions"],
            json.RootElement.GetProperty("hand").EnumerateObject().Select(p => p.Name));
        Assert.Equal(JsonValueKind.Null, json.RootElement.GetProperty("doppler").ValueKind);
        Assert.Contains("in the way", json.RootElement.GetProperty("advice")[0].GetProperty("text").GetString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_table_says_first_what_was_received()
    {
        CommandRun run = await CommandRun.Of("review", Sample);
        string[] lines = run.Output.Split(Environment.NewLine, StringSplitOptions.RemoveEmptyEntries);
        Assert.StartsWith("PETREL 2, 2026-11-25 10:36:55", lines[0], StringComparison.Ordinal);
        Assert.Matches(@"^lines +\d+ received of \d+ sent \(\d+\.\d %\), \d+ lost, by the decoder's count", lines[1]);
        Assert.All(lines, line => Assert.True(line.Length < 200, line));
    }

    [Fact]
    public async Task Without_a_name_it_is_the_session_that_was_written_last()
    {
        string root = Directory.CreateTempSubdirectory("cockpit-latest-").FullName;
        try
        {
            string[] names = ["sample-rehearsal", "sample-petrel-2"];
            for (int i = 0; i < names.Length; i++)
            {
                string journal = Directory.GetFiles(Path.Combine(Repository.Root, "sessions", names[i]), "session.*").Single();
                string copy = Path.Combine(Directory.CreateDirectory(Path.Combine(root, names[i])).FullName, Path.GetFileName(journal));
                File.Copy(journal, copy);
                File.SetLastWriteTimeUtc(copy, new DateTime(2026, 11, 25, 12, i, 0, DateTimeKind.Utc));
            }

            Assert.Equal((await CommandRun.Of("review", Sample)).Output, (await CommandRun.Of("review", "--sessions", root)).Output);
        }
        finally
        {
            Directory.Delete(root, recursive: true);
        }
    }

    [Theory]
    [InlineData("there is no such session", "review", "no-such-folder")]
    [InlineData("there is no session here", "review", "--sessions", "no-such-folder")]
    [InlineData("choose table or json", "review", "--format", "csv")]
    public async Task What_cannot_be_reviewed_gets_one_sentence(string sentence, params string[] args)
    {
        CommandRun run = await CommandRun.Of(args);
        Assert.Equal((2, ""), (run.ExitCode, run.Output));
        Assert.Contains(sentence, Assert.Single(run.Error.Split(Environment.NewLine, StringSplitOptions.RemoveEmptyEntries)), StringComparison.Ordinal);
    }
}
