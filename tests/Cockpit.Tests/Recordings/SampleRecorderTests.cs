using System.Text.Json.Nodes;
using Cockpit.Core.Dsp;
using Cockpit.Core.Formats;
using Cockpit.Core.Formats.Recordings;
using Cockpit.Devices.Recordings;
using Microsoft.Extensions.Time.Testing;

namespace Cockpit.Tests.Recordings;

public sealed class SampleRecorderTests : IDisposable
{
    private static readonly SampleLayout Layout = new(SampleFormat.Ci16Le, 2_400_000, CentreHz: 1_701_300_000);
    private readonly string _folder = Path.Combine(Directory.CreateTempSubdirectory("cockpit-recorder-").FullName, "new", "folder");
    private readonly FakeTimeProvider _time = new(new DateTimeOffset(2026, 11, 25, 10, 15, 0, TimeSpan.Zero));

    public void Dispose() => Directory.Delete(Path.GetDirectoryName(Path.GetDirectoryName(_folder))!, recursive: true);

    [Fact]
    public void What_was_sent_is_kept_byte_for_byte_with_gaps_and_lock_noted()
    {
        byte[] samples = [.. Enumerable.Range(0, 4000).Select(k => (byte)k)];
        using (SampleRecorder recorder = new(_folder, "pass", Layout, _time))
        {
            recorder.Write(samples.AsSpan(0, 400), 0, locked: false);
            recorder.Write(samples.AsSpan(400, 1600), 0, locked: true);
            _time.Advance(TimeSpan.FromSeconds(2));
            recorder.Write(samples.AsSpan(2000, 2000), 77, locked: false);
            Assert.Null(recorder.Trouble);
        }

        Assert.Equal(samples, File.ReadAllBytes(Path.Combine(_folder, "pass.sigmf-data")));
        JsonNode meta = JsonNode.Parse(File.ReadAllText(Path.Combine(_folder, "pass.sigmf-meta")))!;
        Assert.Equal(["0 2026-11-25T10:15:00.0000000Z", "500 2026-11-25T10:15:02.0000000Z"], meta["captures"]!.AsArray().Select(c => $"{c!["core:sample_start"]} {c["core:datetime"]}"));
        Assert.Equal(["100 lock: frames are locked", "500 gap: 77 samples are missing here"], meta["annotations"]!.AsArray().Select(Words));
        Assert.Equal(400, (int)meta["annotations"]![0]!["core:sample_count"]!);
        Assert.True(SigmfMeta.Read(File.ReadAllBytes(Path.Combine(_folder, "pass.sigmf-meta")), "pass").Try(out SampleLayout? read, out ParseError? error), $"{error}");
        Assert.Equal((Layout.Format, Layout.SampleRate, Layout.CentreHz), (read.Format, read.SampleRate, read.CentreHz));
    }

    [Fact]
    public void The_pass_its_moments_and_the_keys_of_the_operator_are_noted_where_they_happened_in_the_samples()
    {
        RecordingMarks marks = new();
        using (SampleRecorder recorder = new(_folder, "pass", Layout, _time, marks))
        {
            recorder.Write(new byte[400], 0, locked: false);
            marks.Pass = "PETREL 2";
            marks.Add("AOS", "PETREL 2 rises");
            recorder.Write(new byte[800], 0, locked: false);
            marks.Add("best", "taken: best");
            recorder.Write(new byte[800], 0, locked: true);
            marks.Pass = null;
            marks.Add("LOS", "PETREL 2 sets");
            recorder.Write(new byte[400], 0, locked: true);
        }

        JsonNode meta = JsonNode.Parse(File.ReadAllText(Path.Combine(_folder, "pass.sigmf-meta")))!;
        Assert.Equal(
            ["100 AOS: PETREL 2 rises (1)", "100 pass: PETREL 2 (400)", "300 best: taken: best (1)", "300 lock: frames are locked (300)", "500 LOS: PETREL 2 sets (1)"],
            meta["annotations"]!.AsArray().Select(a => $"{Words(a)} ({a!["core:sample_count"]})"));
        Assert.All(meta["annotations"]!.AsArray(), a => Assert.InRange(((string)a!["core:label"]!).Length, 1, 20));
    }

    // A recording that begins in the middle of a pass, after a sender was gone, is in the pass from its first sample on.
    [Fact]
    public void A_second_recording_of_the_same_pass_is_in_it_from_the_start()
    {
        RecordingMarks marks = new() { Pass = "PETREL 2" };
        using (SampleRecorder recorder = new(_folder, "pass", Layout, _time, marks))
        {
            recorder.Write(new byte[400], -1, locked: false);
        }

        JsonNode meta = JsonNode.Parse(File.ReadAllText(Path.Combine(_folder, "pass.sigmf-meta")))!;
        Assert.Equal(["0 pass: PETREL 2"], meta["annotations"]!.AsArray().Select(Words));
    }

    // A disk that another program fills beside us.
    [Fact]
    public void It_ends_at_the_look_at_which_too_little_is_left_and_every_sample_before_is_kept()
    {
        long free = 1000;
        using SampleRecorder recorder = new(_folder, "pass", Layout, _time, leastFree: 500, freeBeside: _ => free);
        for (int second = 0; second < 5; second++, free -= 200)
        {
            recorder.Write(new byte[400], 0, locked: false);
            _time.Advance(TimeSpan.FromSeconds(1));
        }

        Assert.Equal("the recording ended, 0 MB of its disk are left; guidance goes on", recorder.Trouble);
        Assert.Equal(1600, new FileInfo(Path.Combine(_folder, "pass.sigmf-data")).Length);
    }

    // A disk of which everything must stay free is full from the first look on.
    [Fact]
    public void Before_the_disk_is_full_it_ends_whole_and_says_so()
    {
        using SampleRecorder recorder = new(_folder, "pass", Layout, _time, leastFree: long.MaxValue);
        recorder.Write(new byte[400], 0, locked: true);
        _time.Advance(TimeSpan.FromSeconds(1.5));
        recorder.Write(new byte[400], 0, locked: true);
        Assert.Contains("of its disk are left; guidance goes on", recorder.Trouble, StringComparison.Ordinal);
        recorder.Write(new byte[400], 0, locked: true);
        Assert.Equal(800, new FileInfo(Path.Combine(_folder, "pass.sigmf-data")).Length);
        Assert.Equal(200, (int)JsonNode.Parse(File.ReadAllText(Path.Combine(_folder, "pass.sigmf-meta")))!["annotations"]![0]!["core:sample_count"]!);
    }

    // 15 minutes of 16-bit samples at 3 Msps: 10.8 GB.
    [Fact]
    public void The_space_is_known_beforehand() =>
        Assert.Equal(10_800_000_000, SampleRecorder.BytesFor(new SampleLayout(SampleFormat.Ci16Le, 3_000_000), TimeSpan.FromMinutes(15)));

    private static string Words(JsonNode? annotation) => $"{annotation!["core:sample_start"]} {annotation["core:label"]}: {annotation["core:comment"]}";
}
