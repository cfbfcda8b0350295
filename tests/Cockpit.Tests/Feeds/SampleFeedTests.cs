using Cockpit.Core.Dsp;
using Cockpit.Core.Dsp.Synthesis;
using Cockpit.Core.Formats.Recordings;
using Cockpit.Core.Units;
using Cockpit.Devices.Feeds.Samples;
using Cockpit.Devices.Ports;
using Cockpit.Devices.Recordings;
using Cockpit.Session.Events;

namespace Cockpit.Tests.Feeds;

public sealed class SampleFeedTests : IDisposable
{
    private const double Rate = 1_800_000;
    private const double DopplerHz = 12_000;
    private static readonly Frequency Downlink = Frequency.FromMegahertz(1701.3);
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    private readonly string _folder = Directory.CreateTempSubdirectory("cockpit-samples-").FullName;
    private readonly SeenEvents _seen = new();

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    // The evening of every user: the program first, then the recorder; the recorder stops too early.
    [Fact]
    public async Task A_recording_that_begins_later_is_measured_while_it_grows_and_missed_when_it_stops()
    {
        string path = Path.Combine(_folder, "pass.wav");
        await using SampleFeed feed = Opened($"file:{path}?center={Downlink.Hertz - 50_000:0}");
        Assert.Contains("is not there yet", (await _seen.First<FeedLost>(_ => true, Patience)).Reason, StringComparison.Ordinal);

        using SampleFile recorder = SampleFile.Create(path, new SampleLayout(SampleFormat.Ci16Le, Rate, CentreHz: Downlink.Hertz - 50_000));
        IqGenerator generator = new(new IqScenario { SampleRate = Rate, Seconds = 1.5, CentreHz = Downlink.Hertz - 50_000, DopplerHz = [new(0, 50_000 + DopplerHz)] });
        float[] i = new float[(int)(Rate / 10)], q = new float[i.Length];
        byte[] bytes = new byte[i.Length * 4];
        while (generator.Next(i, q) is > 0 and int count)
        {
            SampleWriter.Write(SampleFormat.Ci16Le, i.AsSpan(0, count), q.AsSpan(0, count), bytes);
            recorder.Write(bytes.AsSpan(0, count * 4));
            recorder.Flush();
        }

        SignalMeasured locked = await _seen.First<SignalMeasured>(e => e.Sample is { Locked: true, Frames: > 2 }, Patience);
        Assert.InRange(locked.Sample.SnrDb!.Value, 11.0, 13.0);
        Assert.InRange(locked.Sample.FramesLost!.Value, 0, 1);
        Assert.InRange(locked.Sample.OffsetHz!.Value, DopplerHz - 100, DopplerHz + 100);
        Assert.Contains(path, (await _seen.First<FeedConnected>(_ => true, Patience)).Where, StringComparison.Ordinal);
        RecordingWatched watched = await _seen.First<RecordingWatched>(e => e.Bytes > 0, Patience);
        Assert.True(watched.FreeBytes > 0);
        Assert.Contains("does not grow any more", (await _seen.First<FeedLost>(e => e.Reason.Contains("grow", StringComparison.Ordinal), Patience)).Reason, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("tcp://127.0.0.1:5020?format=cu8", "rate")]
    [InlineData("udp://:5020?rate=2400000", "format")]
    public void An_address_that_says_only_half_of_its_samples_is_refused_before_the_pass(string address, string missing)
    {
        Assert.True(SampleAddress.IsOne(address));
        Assert.True(SampleAddress.Read(address, "--signal").Try(out SampleAddress? samples, out _));
        PortException refusal = Assert.Throws<PortException>(() => new SampleFeed(samples, "signal", Downlink).Open());
        Assert.Contains(missing + "=", refusal.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("file:now.wav", true)]
    [InlineData("file:NOW.SIGMF-META", true)]
    [InlineData("file:now.cu8?rate=2400000", true)]
    [InlineData("file:now.bin?format=ci16&rate=3000000", true)]
    [InlineData("-?format=cu8&rate=2400000", true)]
    [InlineData("file:level.txt", false)]
    [InlineData("file:level.txt?from=start", false)]
    [InlineData("tcp://127.0.0.1:5010", false)]
    [InlineData("http://127.0.0.1:8080/now?format=json&rate=5", false)]
    [InlineData("rig://127.0.0.1:4532", false)]
    [InlineData("tcp://127.0.0.1:5010?columns=time,,level", false)]
    [InlineData("-", false)]
    public void What_brings_samples_and_what_brings_lines_is_told_by_the_address(string address, bool samples) =>
        Assert.Equal(samples, SampleAddress.IsOne(address));

    private SampleFeed Opened(string address)
    {
        Assert.True(SampleAddress.Read(address, "--signal").Try(out SampleAddress? samples, out _));
        SampleFeed feed = new(samples, "signal", Downlink);
        feed.Open();
        feed.Start(_seen, TimeProvider.System);
        return feed;
    }
}
