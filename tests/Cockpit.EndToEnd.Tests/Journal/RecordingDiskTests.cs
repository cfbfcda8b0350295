using Cockpit.Core.Dsp;
using Cockpit.Core.Formats;
using Cockpit.Core.Formats.Recordings;
using Cockpit.Devices.Recordings;

namespace Cockpit.EndToEnd.Tests.Journal;

/// <summary>The recording of samples on a disk of 4 MB.</summary>
public sealed class RecordingDiskTests : IDisposable
{
    private const int SampleBytes = 4;
    private static readonly SampleLayout Layout = new(SampleFormat.Ci16Le, 2_400_000, CentreHz: 1_701_300_000);
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("cockpit-disk-");

    public void Dispose() => _folder.Delete(recursive: true);

    [Fact]
    public async Task It_ends_while_there_is_room_left_and_is_whole()
    {
        const long LeastFree = 1_500_000;
        using SmallDisk disk = new(Path.Combine(_folder.FullName, "disk"), kilobytes: 4096);
        using SampleRecorder recorder = new(disk.Path, "pass", Layout, TimeProvider.System, leastFree: LeastFree, freeBeside: path => disk.FreeBeside(path));
        byte[] samples = new byte[900_000];
        int written = 0;
        while (recorder.Trouble is null && written < 4 * samples.Length)
        {
            recorder.Write(samples, 0, locked: true);
            written += samples.Length;
            await Task.Delay(TimeSpan.FromSeconds(1.05), CancellationToken.None);
        }

        Assert.Equal("the recording ended, 1 MB of its disk are left; guidance goes on", recorder.Trouble);
        Assert.InRange(disk.FreeBeside(Path.Combine(disk.Path, "pass.sigmf-data")), LeastFree - samples.Length, LeastFree);
        Assert.Equal(written, new FileInfo(Path.Combine(disk.Path, "pass.sigmf-data")).Length);
        Whole(disk.Path);
    }

    // Another program takes the rest between two looks: nothing can be written any more, not even whole samples.
    [Fact]
    public void A_disk_that_is_full_all_of_a_sudden_ends_the_recording_and_nothing_else()
    {
        using SmallDisk disk = new(Path.Combine(_folder.FullName, "disk"), kilobytes: 4096);
        if (!disk.IsMounted)
        {
            // Without the right to mount there is no disk to fill.
            Assert.False(Environment.IsPrivilegedProcess);
            return;
        }

        using SampleRecorder recorder = new(disk.Path, "pass", Layout, TimeProvider.System, leastFree: 0);
        for (int k = 0; k < 10; k++)
        {
            recorder.Write(new byte[900_001 / SampleBytes * SampleBytes], 0, locked: false);
        }

        Assert.Matches("^the recording ended: .+; guidance goes on$", recorder.Trouble);
        Assert.InRange(new FileInfo(Path.Combine(disk.Path, "pass.sigmf-data")).Length, 3_000_000, 4096 * 1024);
        Whole(disk.Path);
    }

    private static void Whole(string folder)
    {
        string path = Path.Combine(folder, "pass.sigmf-meta");
        Assert.True(RecordingFile.Open(path, new SampleOptions(), path).Try(out RecordingFile? recording, out ParseError? error), $"{error}");
        using (recording)
        {
            Assert.Equal((Layout.SampleRate, Layout.CentreHz), (recording.Layout.SampleRate, recording.Layout.CentreHz));
            byte[] first = new byte[400];
            Assert.Equal(400, recording.Read(first));
        }
    }
}
