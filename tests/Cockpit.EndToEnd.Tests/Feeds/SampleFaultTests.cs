using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Net.Sockets;
using Cockpit.Core.Dsp;
using Cockpit.Core.Dsp.Synthesis;
using Cockpit.Core.Formats;
using Cockpit.Core.Units;
using Cockpit.Devices.Feeds.Samples;
using Cockpit.Devices.Journal;
using Cockpit.Devices.Recordings;
using Cockpit.EndToEnd.Tests.Program;
using Cockpit.Session.Events;

namespace Cockpit.EndToEnd.Tests.Feeds;

/// <summary>Samples over TCP from senders that fail: the feed says so within a second, and goes on when they do.</summary>
public sealed class SampleFaultTests
{
    private const double Rate = 1_800_000;
    private static readonly TimeSpan Soon = TimeSpan.FromSeconds(1);
    private readonly EventWait _events = new();

    [Fact]
    public async Task A_sender_that_dies_in_the_middle_of_a_sample_is_told_at_once_and_its_successor_is_measured_as_well()
    {
        using TcpListener listener = Listening(out int port);
        await using SampleFeed feed = Started(port);
        using (TcpClient sender = await listener.AcceptTcpClientAsync(CancellationToken.None))
        {
            await SendAsync(sender, seconds: 0.5, cut: 1);
            Assert.InRange(_events.Next<SignalMeasured>(measured => measured.Sample.Locked == true).Sample.SnrDb!.Value, 11, 13);
        }

        long died = Stopwatch.GetTimestamp();
        Assert.Contains("closed the connection", _events.Next<FeedLost>().Reason, StringComparison.Ordinal);
        Assert.InRange(Stopwatch.GetElapsedTime(died), TimeSpan.Zero, Soon);
        using TcpClient successor = await listener.AcceptTcpClientAsync(CancellationToken.None);
        _events.Next<FeedConnected>();
        await SendAsync(successor, seconds: 0.7, cut: 3);
        Assert.InRange(_events.Next<SignalMeasured>(measured => measured.Sample.Locked == true).Sample.SnrDb!.Value, 11, 13);
    }

    [Fact]
    public async Task A_sender_that_stalls_is_told_within_a_second_and_taken_up_where_it_goes_on()
    {
        using TcpListener listener = Listening(out int port);
        await using SampleFeed feed = Started(port);
        using TcpClient sender = await listener.AcceptTcpClientAsync(CancellationToken.None);
        await SendAsync(sender, seconds: 0.3);
        _events.Next<SignalMeasured>();
        Assert.Contains("is connected, but no samples come", _events.Next<FeedLost>().Reason, StringComparison.Ordinal);
        await SendAsync(sender, seconds: 0.3);
        _events.Next<FeedConnected>();
        _events.Next<SignalMeasured>();
    }

    // A minute of samples as fast as the line takes them: what cannot be measured in time is left out, told, and nothing waits.
    [Fact]
    public async Task A_flood_is_thinned_to_its_newest_and_told()
    {
        using TcpListener listener = Listening(out int port);
        await using SampleFeed feed = Started(port);
        using TcpClient sender = await listener.AcceptTcpClientAsync(CancellationToken.None);
        byte[] second = Samples(1.0);
        Task flooding = Task.Run(async () =>
        {
            for (int k = 0; k < 60; k++)
            {
                await sender.GetStream().WriteAsync(second, CancellationToken.None);
            }
        });
        Assert.Contains("samples are left out", _events.Next<FeedRemarked>(told => told.Remark is not null).Remark, StringComparison.Ordinal);
        _events.Next<SignalMeasured>();
        await flooding.WaitAsync(TimeSpan.FromSeconds(30), CancellationToken.None);

        // The remark stands for five seconds after the last sample that was left out.
        await Task.Delay(TimeSpan.FromSeconds(5.2), CancellationToken.None);
        await SendAsync(sender, seconds: 0.2);
        _events.Next<FeedRemarked>(told => told.Remark is null);
    }

    // The whole program, its sender a process of its own that is killed: the pass goes on, and the journal holds when it was said.
    [Fact]
    public async Task The_pass_goes_on_without_its_samples_and_says_so_within_a_second()
    {
        using CockpitProcess cockpit = new();
        int port = PeerProcess.FreePort();
        string address = string.Create(CultureInfo.InvariantCulture, $"tcp://127.0.0.1:{port}?format=ci16&rate=1000000");
        using Process flying = cockpit.Start(cockpit.Live("--signal", address, "--stop-after", "9s"));
        Task<string> output = flying.StandardOutput.ReadToEndAsync();
        Task<string> error = flying.StandardError.ReadToEndAsync();
        using (PeerProcess sender = new(ProgramUnderTest.Words[0], [.. ProgramUnderTest.Words[1..], "simulate", "iq", "--listen", string.Create(CultureInfo.InvariantCulture, $"tcp://127.0.0.1:{port}"), "--rate", "1Msps", "--seconds", "60"]))
        {
            await Task.Delay(TimeSpan.FromSeconds(5.5), CancellationToken.None);
        }

        await flying.WaitForExitAsync(CancellationToken.None);
        Assert.True(flying.ExitCode == 0, await error);
        Assert.True(Recording.ReadAll(Directory.GetDirectories(cockpit.Sessions).Single()).Try(out Recording? recording, out ParseError? _));
        Envelope last = recording.Envelopes.Last(e => e.Event is SignalMeasured);
        Envelope lost = recording.Envelopes.First(e => e.Event is FeedLost && e.Sequence > last.Sequence);
        Assert.InRange(lost.Elapsed - last.Elapsed, TimeSpan.Zero, Soon);
        Assert.True(recording.Envelopes.Count(e => e.Event is Ticked && e.Sequence > lost.Sequence) > 5, "the ticks did not go on");
        Assert.Matches("signal silent since [0-9:]+ UTC: ", await output);
    }

    private static TcpListener Listening(out int port)
    {
        TcpListener listener = new(IPAddress.Loopback, 0);
        listener.Start();
        port = ((IPEndPoint)listener.LocalEndpoint).Port;
        return listener;
    }

    private SampleFeed Started(int port)
    {
        Assert.True(SampleAddress.Read(string.Create(CultureInfo.InvariantCulture, $"tcp://127.0.0.1:{port}?format=ci16&rate={Rate}"), "--signal").Try(out SampleAddress? address, out _));
        SampleFeed feed = new(address, "signal", Frequency.FromMegahertz(1701.3));
        feed.Open();
        feed.Start(_events, TimeProvider.System);
        return feed;
    }

    /// <summary>Sends samples, at the end so many bytes of one more.</summary>
    private static async Task SendAsync(TcpClient sender, double seconds, int cut = 0)
    {
        byte[] samples = Samples(seconds);
        await sender.GetStream().WriteAsync(samples, CancellationToken.None);
        await sender.GetStream().WriteAsync(samples.AsMemory(0, cut), CancellationToken.None);
    }

    private static byte[] Samples(double seconds)
    {
        IqGenerator generator = new(new IqScenario { SampleRate = Rate, Seconds = seconds });
        float[] i = new float[generator.TotalSamples], q = new float[i.Length];
        byte[] bytes = new byte[i.Length * 4];
        int done = 0;
        while (generator.Next(i.AsSpan(done), q.AsSpan(done)) is > 0 and int count)
        {
            done += count;
        }

        SampleWriter.Write(SampleFormat.Ci16Le, i, q, bytes);
        return bytes;
    }
}
