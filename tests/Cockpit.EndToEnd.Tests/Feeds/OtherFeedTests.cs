using System.Diagnostics;
using System.IO.Pipes;
using System.Net;
using System.Net.Sockets;
using Cockpit.Core.Units;
using Cockpit.Devices.Feeds;
using Cockpit.Devices.Feeds.Samples;
using Cockpit.Devices.Ports;
using Cockpit.Devices.Recordings;
using Cockpit.Session.Events;
using Cockpit.EndToEnd.Tests.Program;

namespace Cockpit.EndToEnd.Tests.Feeds;

public sealed class OtherFeedTests : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("cockpit-feed-");
    private readonly EventWait _events = new();

    private string FilePath => Path.Combine(_folder.FullName, "level.txt");

    public void Dispose() => _folder.Delete(recursive: true);

    [Fact]
    public async Task Datagrams_hold_whole_lines_with_or_without_their_last_line_end()
    {
        UdpPort port = new("", 0, TimeProvider.System);
        await using LineFeed feed = SignalFeeds.Started(port, _events);
        IPEndPoint place = Assert.IsType<IPEndPoint>(port.LocalEndPoint);
        Assert.Equal(IPAddress.Loopback, place.Address);
        Assert.Equal($"udp {place}", _events.Next<FeedConnected>().Where);
        using UdpClient sender = new();
        await sender.SendAsync("level=1"u8.ToArray(), place, CancellationToken.None);
        _events.Level(1);
        await sender.SendAsync("\u0001\u0002"u8.ToArray(), place, CancellationToken.None);
        _events.Next<FeedLineRejected>();

        // Bytes that are no text cost the trust in bare numbers: the sixth good line in a row counts again.
        await sender.SendAsync("# comment\r\nlevel=2\r\nlevel=2\r\nlevel=2\r\nlevel=2\r\nlevel=2\r\nlevel=2\r\n"u8.ToArray(), place, CancellationToken.None);
        _events.Level(2);
    }

    [Fact]
    public async Task Standard_input_is_read_to_its_end_and_the_feed_stays()
    {
        using AnonymousPipeServerStream pipe = new(PipeDirection.Out);
        AnonymousPipeClientStream input = new(PipeDirection.In, pipe.ClientSafePipeHandle);
        await using LineFeed feed = SignalFeeds.Started(new StreamPort(input, "standard input"), _events);
        Assert.Equal("standard input", _events.Next<FeedConnected>().Where);
        await pipe.WriteAsync("level=7.5\nlevel=8.5"u8.ToArray(), CancellationToken.None);
        _events.Level(7.5);
        await pipe.DisposeAsync();
        Assert.Equal("standard input has ended; nothing more can come from it", _events.Next<FeedLost>().Reason);
    }

    [Fact]
    public async Task Closing_does_not_wait_for_an_input_that_says_nothing()
    {
        using AnonymousPipeServerStream pipe = new(PipeDirection.Out);
        AnonymousPipeClientStream input = new(PipeDirection.In, pipe.ClientSafePipeHandle);
        LineFeed feed = SignalFeeds.Started(new StreamPort(input, "standard input"), _events);
        _events.Next<FeedConnected>();
        Task closed = feed.DisposeAsync().AsTask();
        Assert.Same(closed, await Task.WhenAny(closed, Task.Delay(TimeSpan.FromSeconds(10), CancellationToken.None)));
    }

    [Fact]
    public async Task A_growing_file_is_followed_from_its_end_and_read_anew_when_it_shrinks_or_is_replaced()
    {
        await File.WriteAllTextAsync(FilePath, "level=1\nlevel=2\nlevel=-3", CancellationToken.None);
        await using LineFeed feed = SignalFeeds.Started("file:" + FilePath, _events);
        Assert.Equal("file " + FilePath, _events.Next<FeedConnected>().Where);

        // The end of a line that began before is not a level of its own.
        await File.AppendAllTextAsync(FilePath, "3\nlevel=4\n", CancellationToken.None);
        _events.Level(4);
        Assert.Equal(1, feed.Counts.Measured);

        await File.WriteAllTextAsync(FilePath, "level=5\n", CancellationToken.None);
        _events.Next<FeedConnected>();
        _events.Level(5);

        string other = Path.Combine(_folder.FullName, "other.txt");
        await File.WriteAllTextAsync(other, "# a longer file under the same name\nlevel=6\n", CancellationToken.None);
        File.Move(other, FilePath, overwrite: true);
        _events.Next<FeedConnected>();
        _events.Level(6);
        await File.AppendAllTextAsync(FilePath, "level=7\n", CancellationToken.None);
        _events.Level(7);
        Assert.Equal(0, feed.Counts.Rejected);
    }

    [Fact]
    public async Task A_file_that_comes_later_is_waited_for_and_read_whole()
    {
        await using LineFeed feed = SignalFeeds.Started("file:" + FilePath, _events);
        Assert.Equal($"there is no file {FilePath}; it is waited for", _events.Next<FeedLost>().Reason);
        await File.WriteAllTextAsync(FilePath, "level=1\n", CancellationToken.None);
        _events.Level(1);
        File.Delete(FilePath);
        Assert.Equal($"there is no file {FilePath}; it is waited for", _events.Next<FeedLost>().Reason);
        await File.WriteAllTextAsync(FilePath, "level=2\n", CancellationToken.None);
        _events.Level(2);
    }

    [Fact]
    public async Task A_file_can_be_read_from_its_start()
    {
        await File.WriteAllTextAsync(FilePath, "level=1\n", CancellationToken.None);
        await using LineFeed feed = SignalFeeds.Started($"file:{FilePath}?from=start", _events);
        _events.Level(1);
    }

    [Fact]
    public async Task A_big_file_read_from_its_start_does_not_hold_up_whoever_starts_it()
    {
        byte[] line = [.. "snr=7\n"u8];
        await using (FileStream big = File.Create(FilePath))
        {
            byte[] block = [.. Enumerable.Repeat(line, 10_000).SelectMany(bytes => bytes)];
            for (int i = 0; i < 500; i++)
            {
                await big.WriteAsync(block, CancellationToken.None);
            }
        }

        await using LineFeed feed = SignalFeeds.Started($"file:{FilePath}?from=start", _events);
        Assert.InRange(feed.Counts.Measured, 0, 4_999_999);
        _events.Next<SignalMeasured>();
    }

    [Fact]
    public void A_device_is_no_file()
    {
        if (!OperatingSystem.IsLinux())
        {
            return;
        }

        using IPort device = SignalFeeds.PortAt("file:/dev/zero?from=start");
        Assert.Equal("/dev/zero is a device; give the file that the other program writes", Assert.Throws<PortException>(device.Open).Message);
    }

    // Opening a pipe waits for whoever writes into it: the program must not.
    [NamedPipeFact]
    public async Task A_pipe_is_read_whoever_writes_into_it_may_come_late_leave_and_come_back()
    {
        await MakePipeAsync();
        await using (LineFeed feed = SignalFeeds.Started("file:" + FilePath, _events))
        {
            Assert.Equal($"nobody writes into the pipe {FilePath}; it is waited for", _events.Next<FeedLost>().Reason);
            for (int level = 1; level <= 2; level++)
            {
                await File.WriteAllTextAsync(FilePath, $"level={level}\n", CancellationToken.None);
                Assert.Equal($"pipe {FilePath}", _events.Next<FeedConnected>().Where);
                _events.Level(level);
                Assert.Equal($"the writer has left the pipe {FilePath}; another is waited for", _events.Next<FeedLost>().Reason);
            }

            _events.Next<FeedLost>();
        }
    }

    [NamedPipeFact]
    public async Task Samples_come_through_a_pipe_too()
    {
        await MakePipeAsync();
        Assert.True(SampleAddress.Read($"file:{FilePath}?format=ci16&rate=1800000", "--signal").Try(out SampleAddress? address, out _));
        Assert.False(address.IsFile);
        await using SampleFeed feed = new(address, "signal", Frequency.FromMegahertz(1701.3));
        feed.Open();
        feed.Start(_events, TimeProvider.System);
        _events.Next<FeedLost>();
        byte[] samples = new byte[1_800_000 * 4 / 2];
        for (int k = 0; k < samples.Length; k++)
        {
            samples[k] = (byte)(k * 31 >> 3);
        }


        // The writer stays until something is measured: what is told of it then comes after that.
        await using (FileStream writer = new(FilePath, FileMode.Open, FileAccess.Write, FileShare.ReadWrite))
        {
            await writer.WriteAsync(samples, CancellationToken.None);
            await writer.FlushAsync(CancellationToken.None);
            Assert.Equal($"pipe {FilePath}", _events.Next<FeedConnected>().Where);
            _events.Next<SignalMeasured>();
        }

        Assert.Equal($"the writer has left the pipe {FilePath}; another is waited for", _events.Next<FeedLost>().Reason);
    }

    [NamedPipeFact]
    public async Task A_file_that_becomes_a_pipe_is_told_and_the_file_after_it_is_read()
    {
        await File.WriteAllTextAsync(FilePath, "", CancellationToken.None);
        await using LineFeed feed = SignalFeeds.Started("file:" + FilePath, _events);
        _events.Next<FeedConnected>();
        File.Delete(FilePath);
        await MakePipeAsync();
        _events.Next<FeedLost>(lost => lost.Reason.Contains("it is a pipe now", StringComparison.Ordinal));
        File.Delete(FilePath);
        await File.WriteAllTextAsync(FilePath, "level=1\n", CancellationToken.None);
        _events.Level(1);
    }

    [Fact]
    public void A_folder_is_no_file()
    {
        using IPort folder = SignalFeeds.PortAt("file:" + _folder.FullName);
        Assert.Equal($"{_folder.FullName} is a folder; give the file that the other program writes", Assert.Throws<PortException>(folder.Open).Message);
    }

    private async Task MakePipeAsync()
    {
        using Process made = Process.Start("mkfifo", FilePath);
        await made.WaitForExitAsync(CancellationToken.None);
        Assert.Equal(0, made.ExitCode);
    }
}
