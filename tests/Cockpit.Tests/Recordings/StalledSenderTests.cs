using Cockpit.Core.Dsp;
using Cockpit.Core.Formats.Recordings;
using Cockpit.Devices.Feeds.Samples;
using Cockpit.Devices.Ports;
using Cockpit.Devices.Recordings;
using Microsoft.Extensions.Time.Testing;

namespace Cockpit.Tests.Recordings;

/// <summary>Senders of samples that stall, come too fast, or are replaced, in virtual time.</summary>
public sealed class StalledSenderTests : IDisposable
{
    private static readonly SampleLayout Layout = new(SampleFormat.Ci16Le, 2_400_000);
    private readonly string _folder = Directory.CreateTempSubdirectory("cockpit-stall-").FullName;
    private readonly FakeTimeProvider _time = new();
    private readonly List<string> _said = [];
    private readonly byte[] _buffer = new byte[4000];

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public async Task A_sender_that_stalls_for_30_s_is_told_within_a_second_once_and_when_it_comes_back()
    {
        ByHand port = new();
        await using PortSampleSource source = new(port, Layout, waits: false, follow: true, _time, new Watcher(_said));
        port.Listener.Connected("there");
        port.Listener.Received(new byte[400]);
        Assert.Equal(400, (await source.ReadAsync(_buffer, CancellationToken.None)).Bytes);

        ValueTask<SamplesRead> reading = source.ReadAsync(_buffer, CancellationToken.None);
        await PassAsync(TimeSpan.FromSeconds(0.7));
        Assert.Equal(["there"], _said);
        await PassAsync(TimeSpan.FromSeconds(0.3));
        Assert.Equal(["there", "there is connected, but no samples come: does the sender still run?"], _said);
        await PassAsync(TimeSpan.FromSeconds(29));
        Assert.Equal(2, _said.Count);
        port.Listener.Received(new byte[40]);
        Assert.Equal(new SamplesRead(40), await reading);
        Assert.Equal("there", _said[^1]);
    }

    [Fact]
    public async Task A_sender_that_sends_once_a_second_is_no_stall_from_its_second_pause_on()
    {
        ByHand port = new();
        await using PortSampleSource source = new(port, Layout, waits: false, follow: true, _time, new Watcher(_said));
        port.Listener.Connected("there");
        for (int burst = 0; burst < 4; burst++)
        {
            port.Listener.Received(new byte[400]);
            Assert.Equal(400, (await source.ReadAsync(_buffer, CancellationToken.None)).Bytes);
            ValueTask<SamplesRead> reading = source.ReadAsync(_buffer, CancellationToken.None);
            await PassAsync(TimeSpan.FromSeconds(1));
            port.Listener.Received(new byte[40]);
            await reading;
        }

        Assert.Single(_said, said => said.Contains("no samples come", StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_sender_that_is_gone_is_told_by_its_port_alone_and_has_its_time_when_it_is_back()
    {
        ByHand port = new();
        await using PortSampleSource source = new(port, Layout, waits: false, follow: true, _time, new Watcher(_said));
        port.Listener.Connected("there");
        port.Listener.Received(new byte[400]);
        await source.ReadAsync(_buffer, CancellationToken.None);
        ValueTask<SamplesRead> reading = source.ReadAsync(_buffer, CancellationToken.None);
        port.Listener.Lost("it closed");
        await PassAsync(TimeSpan.FromSeconds(30));
        port.Listener.Connected("there");
        await PassAsync(TimeSpan.FromSeconds(0.5));
        Assert.Equal(["there", "it closed", "there"], _said);
        port.Listener.Received(new byte[40]);
        Assert.Equal(new SamplesRead(40, -1), await reading);
    }

    // The recorder is started anew under the same name, and has written more than before when we look again.
    [Fact]
    public async Task A_recording_that_is_deleted_and_begun_anew_is_read_from_its_start_even_when_it_is_the_longer_one()
    {
        string path = Path.Combine(_folder, "now.ci16");
        await File.WriteAllBytesAsync(path, new byte[400]);
        Assert.True(FileSampleSource.Open(path, new SampleOptions(SampleFormat.Ci16Le, 2_400_000), true, _time, new Watcher(_said), "test").Try(out FileSampleSource? source, out _));
        await using FileSampleSource held = source;
        Assert.Equal(400, (await source.ReadAsync(_buffer, CancellationToken.None)).Bytes);
        ValueTask<SamplesRead> reading = source.ReadAsync(_buffer, CancellationToken.None);
        File.Delete(path);
        await PassAsync(TimeSpan.FromSeconds(0.2));
        Assert.Equal($"{path} is not there any more; a new recording of that name is waited for", _said[^1]);
        string other = path + ".new";
        await File.WriteAllBytesAsync(other, [.. Enumerable.Range(0, 800).Select(k => (byte)k)]);
        File.Move(other, path);
        await PassAsync(TimeSpan.FromSeconds(0.2));
        Assert.Equal(new SamplesRead(800, -1), await reading);
        Assert.Equal((byte)5, _buffer[5]);
        Assert.Equal($"{path}, begun anew", _said[^1]);
    }

    [Fact]
    public async Task A_recording_that_is_begun_anew_at_another_rate_is_opened_afresh()
    {
        string path = Path.Combine(_folder, "now.wav");
        Write(path, 2_400_000);
        Assert.True(FileSampleSource.Open(path, new SampleOptions(), true, _time, new Watcher(_said), "test").Try(out FileSampleSource? source, out _));
        await using FileSampleSource held = source;
        await source.ReadAsync(_buffer, CancellationToken.None);
        File.Delete(path);
        Write(path, 3_000_000);
        IOException failure = await Assert.ThrowsAsync<IOException>(async () => await source.ReadAsync(_buffer, CancellationToken.None));
        Assert.Equal("it was begun anew with another format, rate or centre", failure.Message);
    }

    [Fact]
    public void Samples_that_are_left_out_are_a_remark_for_some_seconds()
    {
        DropWatch drops = new(_time);
        drops.Came(0);
        drops.Came(-1);
        Assert.Null(drops.Remark);
        drops.Came(1000);
        Assert.Equal("samples are left out: they come faster than this computer measures them, or broken", drops.Remark);
        _time.Advance(TimeSpan.FromSeconds(4));
        drops.Came(0);
        Assert.NotNull(drops.Remark);
        _time.Advance(TimeSpan.FromSeconds(2));
        Assert.Null(drops.Remark);
    }

    private static void Write(string path, double rate)
    {
        using SampleFile file = SampleFile.Create(path, new SampleLayout(SampleFormat.Ci16Le, rate));
        file.Write(new byte[400]);
        file.Finish();
    }

    /// <summary>Lets virtual time pass, and the reader have its looks meanwhile: it looks every tenth of a real second.</summary>
    private async Task PassAsync(TimeSpan span)
    {
        int steps = Math.Min(4, (int)Math.Ceiling(span.TotalSeconds / 0.05));
        for (int k = 0; k < steps; k++)
        {
            _time.Advance(span / steps);
            await Task.Delay(160);
        }
    }

    /// <summary>A port whose bytes come from the test.</summary>
    private sealed class ByHand : IPort
    {
        private IPortListener? _listener;

        public string Where => "there";

        public IPortListener Listener => _listener!;

        public void Open()
        {
            // Nothing is to be had.
        }

        public Task RunAsync(IPortListener listener, CancellationToken stop)
        {
            _listener = listener;
            return Task.Delay(Timeout.InfiniteTimeSpan, stop);
        }

        public void Dispose()
        {
            // Nothing was had.
        }
    }

    private sealed class Watcher(List<string> said) : ISourceWatcher
    {
        public void Comes(string where) => said.Add(where);

        public void Gone(string reason) => said.Add(reason);

        public void Grows(in GrowthReport report)
        {
            // How fast it grows is another test's matter.
        }
    }
}
