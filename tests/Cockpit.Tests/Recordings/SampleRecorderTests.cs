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
        Assert.Equal(["100 lock", "500 gap of 77 samples"], meta["annotations"]!.AsArray().Select(a => $"{a!["core:sample_start"]} {a["core:label"]}"));
        Assert.Equal(400, (int)meta["annotations"]![0]!["core:sample_count"]!);
        Assert.True(SigmfMeta.Read(File.ReadAllBytes(Path.Combine(_folder, "pass.sigmf-meta")), "pass").Try(out SampleLayout? read, out ParseError? error), $"{error}");
        Assert.Equal((Layout.Format, Layout.SampleRate, Layout.CentreHz), (read.Format, read.SampleRate, read.CentreHz));
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
}
