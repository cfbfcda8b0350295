using System.Text.Json;

namespace Cockpit.Tests.Commands;

public sealed class SimulateIqCommandTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("cockpit-iq").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Theory]
    [InlineData("a.sigmf-meta", "ci8")]
    [InlineData("a.wav", "ci16")]
    [InlineData("a.rf64", "cf32")]
    public async Task What_is_written_is_measured_as_it_was_meant(string name, string format)
    {
        string path = Path.Combine(_folder, name);
        CommandRun made = await CommandRun.Of("simulate", "iq", "--to", path, "--format", format, "--seconds", "0.5", "--snr", "12", "--doppler", "9000", "--at", "2026-11-25T12:00:00Z");
        Assert.Equal((0, ""), (made.ExitCode, made.Output));

        CommandRun read = await CommandRun.Of("meter", path, "--format", "json", "--start", "2026-11-25T12:00:00Z");
        Assert.Equal("", read.Error);
        using JsonDocument rows = JsonDocument.Parse(read.Output);
        using JsonDocument truth = JsonDocument.Parse(await File.ReadAllTextAsync(Path.Combine(_folder, "a.truth.json")));
        Assert.Equal(5, rows.RootElement.GetArrayLength());
        foreach ((JsonElement row, JsonElement window) in rows.RootElement.EnumerateArray().Zip(truth.RootElement.GetProperty("windows").EnumerateArray()))
        {
            Assert.Equal("split-phase", row.GetProperty("kind").GetString());
            foreach ((string figure, double limit) in new[] { ("snr_db", 0.2), ("offset_hz", 20), ("level_dbfs", 0.01), ("noise_dbfs", 0.2), ("clip_share", 1e-6) })
            {
                Assert.Equal(window.GetProperty(figure).GetDouble(), row.GetProperty(figure).GetDouble(), limit);
            }
        }

        double[] sent = [.. truth.RootElement.GetProperty("frames").EnumerateArray().Select(f => f[2].GetDouble())];
        double[] found = [.. rows.RootElement.EnumerateArray().SelectMany(r => r.GetProperty("frame_starts").EnumerateArray()).Select(s => s.GetDouble())];
        Assert.NotEmpty(found);
        Assert.All(found, f => Assert.Contains(sent, s => Math.Abs(s - f) < 0.5));
        Assert.Equal(found.Length, rows.RootElement.EnumerateArray().Last().GetProperty("lines_ok").GetInt32());
    }

    [Fact]
    public async Task A_picture_is_written_whole()
    {
        string path = Path.Combine(_folder, "a.wav"), picture = Path.Combine(_folder, "a.png");
        await CommandRun.Of("simulate", "iq", "--to", path, "--seconds", "0.6", "--snr", "15", "--picture");
        CommandRun read = await CommandRun.Of("meter", path, "--picture", picture, "--channel", "2");

        Assert.Equal(0, read.ExitCode);
        byte[] png = await File.ReadAllBytesAsync(picture);
        Assert.Equal([0x89, (byte)'P', (byte)'N', (byte)'G'], png[..4]);
        Assert.Equal([0, 0, 8, 0], png[16..20]);
        Assert.False(File.Exists(picture + ".part"));
    }

    [Theory]
    [InlineData("--snr", "12:x", "is neither a value")]
    [InlineData("--kind", "fm", "is not a kind")]
    [InlineData("--interferer", "1,2", "is no interferer")]
    [InlineData("--dropouts", "5-4", "is no time without signal")]
    public async Task Wrong_words_are_told_and_nothing_is_written(string option, string value, string words)
    {
        string path = Path.Combine(_folder, "b.wav");
        CommandRun run = await CommandRun.Of("simulate", "iq", "--to", path, option, value);

        Assert.Equal(2, run.ExitCode);
        Assert.Contains(words, run.Error, StringComparison.Ordinal);
        Assert.False(File.Exists(path));
    }
}
