using System.Text;
using System.Text.Json;
using Cockpit.Core.Formats;
using Cockpit.Exports;
using Cockpit.Tests.Commands;

namespace Cockpit.Tests.Exports;

public sealed class SigmfMergeTests
{
    private const string Description =
        """
        {
          "global": {"core:datatype": "ci16_le", "core:sample_rate": 1000, "core:version": "1.0.0", "mine:mood": {"good": true}},
          "captures": [
            {"core:sample_start": 0, "core:datetime": "2026-11-25T10:00:00.5Z", "core:frequency": 1701300000},
            {"core:sample_start": 60000, "core:datetime": "2026-11-25T10:02:00Z"}
          ],
          "annotations": [
            {"core:sample_start": 70000, "core:sample_count": 5, "core:label": "mine", "core:generator": "me"},
            {"core:sample_start": 10, "core:sample_count": 5, "core:label": "mine too"}
          ],
          "other": [1, 2.5e-7, "å"]
        }
        """;

    private static readonly DateTimeOffset Ten = new(2026, 11, 25, 10, 0, 0, TimeSpan.Zero);

    private static readonly SessionMark[] Marks =
    [
        new(Ten.AddSeconds(130), Ten.AddSeconds(131.5), "gap late", "9 lines"),
        new(Ten.AddSeconds(20.5), Ten.AddSeconds(20.5), "key moved", "a key"),
        new(Ten.AddSeconds(-5), Ten.AddSeconds(1.5), "gap not-transmitting", "before it"),
        new(Ten.AddSeconds(-50), Ten.AddSeconds(-40), "gap fade", "not recorded"),
        new(Ten.AddSeconds(55), Ten.AddSeconds(125), "gap weak", "over the seam"),
    ];

    // By hand: sample = start of the capture + (UTC - its UTC) x 1000.
    [Fact]
    public void Each_mark_stands_at_its_sample_in_order_and_all_else_stays()
    {
        using JsonDocument json = Merged(Description);
        JsonElement root = json.RootElement;
        Assert.Equal(
            ["gap not-transmitting 0 1000", "mine too 10 5", "key moved 20000 1", "gap weak 54500 5500", "gap weak 60000 5000", "mine 70000 5", "gap late 70000 1500"],
            root.GetProperty("annotations").EnumerateArray().OrderBy(a => a.GetProperty("core:sample_start").GetInt64()).Select(
                a => $"{a.GetProperty("core:label").GetString()} {a.GetProperty("core:sample_start").GetInt64()} {a.GetProperty("core:sample_count").GetInt64()}"));
        Assert.True(root.GetProperty("global").GetProperty("mine:mood").GetProperty("good").GetBoolean());
        Assert.Equal(1701300000, root.GetProperty("captures")[0].GetProperty("core:frequency").GetInt64());
        Assert.Equal(2.5e-7, root.GetProperty("other")[1].GetDouble());
        Assert.Equal("å", root.GetProperty("other")[2].GetString());
    }

    // SigMF specification 1.0.0: order of the annotations, whole numbers that are not negative, labels of at most 20 characters.
    [Fact]
    public void The_result_keeps_the_rules_of_the_specification()
    {
        using JsonDocument json = Merged(Description);
        JsonElement[] all = [.. json.RootElement.GetProperty("annotations").EnumerateArray()];
        long[] starts = [.. all.Select(a => a.GetProperty("core:sample_start").GetInt64())];
        Assert.Equal(starts.Order(), starts);
        Assert.All(all, a => Assert.True(a.GetProperty("core:sample_start").GetUInt64() >= 0 && a.GetProperty("core:sample_count").GetUInt64() > 0));
        Assert.All(all, a => Assert.InRange(a.GetProperty("core:label").GetString()!.Length, 1, 20));
    }

    [Fact]
    public void Merging_again_replaces_what_was_merged_and_nothing_else()
    {
        string once = Text(Description, Marks);
        Assert.Equal(once, Text(once, Marks));
        using var none = JsonDocument.Parse(Text(once, []));
        Assert.Equal(["mine too", "mine"], none.RootElement.GetProperty("annotations").EnumerateArray().Select(a => a.GetProperty("core:label").GetString()));
    }

    [Theory]
    [InlineData("", "not the description of a SigMF recording")]
    [InlineData("[]", "global and captures are missing")]
    [InlineData("{\"global\":{},\"captures\":[]}", "sample rate")]
    [InlineData("{\"global\":{\"core:sample_rate\":0},\"captures\":[]}", "sample rate")]
    [InlineData("{\"global\":{\"core:sample_rate\":\"fast\"},\"captures\":[]}", "not the description of a SigMF recording")]
    [InlineData("{\"global\":{\"core:sample_rate\":1000},\"captures\":[{\"core:sample_start\":0}]}", "core:datetime")]
    [InlineData("{\"global\":{\"core:sample_rate\":1000},\"captures\":[{\"core:sample_start\":0,\"core:datetime\":\"soon\"}]}", "core:datetime")]
    public void What_is_no_description_or_tells_no_time_is_refused_with_one_sentence(string text, string told) =>
        Assert.Contains(told, SigmfMerge.Of(text, "file", Marks).Error?.ToString(), StringComparison.Ordinal);

    [Fact]
    public async Task The_command_notes_the_gaps_of_a_session_in_a_recording()
    {
        string folder = Directory.CreateTempSubdirectory("cockpit-sigmf-").FullName;
        try
        {
            string description = Path.Combine(folder, "pass.sigmf-meta");
            await File.WriteAllTextAsync(description, Description.Replace("T10:00:00.5Z", "T10:36:50Z", StringComparison.Ordinal).Replace("T10:02:00Z", "T10:37:50Z", StringComparison.Ordinal));
            CommandRun run = await CommandRun.Of("export", Path.Combine(Repository.Root, "sessions", "sample-petrel-2"), "--recording", description, "--out", description);
            Assert.Equal((0, ""), (run.ExitCode, run.Error));
            using var json = JsonDocument.Parse(await File.ReadAllBytesAsync(description));
            string[] labels = [.. json.RootElement.GetProperty("annotations").EnumerateArray().Select(a => a.GetProperty("core:label").GetString()!)];
            Assert.Contains("gap fade", labels);
            Assert.Contains("key peaked", labels);
            Assert.Contains("mine", labels);
            Assert.All(labels, label => Assert.InRange(label.Length, 1, 20));
            Assert.Equal([description], Directory.GetFileSystemEntries(folder));
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static JsonDocument Merged(string text) => JsonDocument.Parse(Text(text, Marks));

    private static string Text(string text, SessionMark[] marks)
    {
        Assert.True(SigmfMerge.Of(text, "file", marks).Try(out byte[]? merged, out ParseError? error), $"{error}");
        return Encoding.UTF8.GetString(merged);
    }
}
