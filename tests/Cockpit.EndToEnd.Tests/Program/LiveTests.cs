using System.Diagnostics;
using System.Net;
using System.Net.Sockets;
using System.Text;
using Cockpit.Core.Chance;
using Cockpit.Core.Formats;
using Cockpit.Devices.Journal;
using Cockpit.Session.Events;

namespace Cockpit.EndToEnd.Tests.Program;

public sealed class LiveTests
{
    [Fact]
    public async Task A_pass_with_a_sender_that_comes_late_sends_rubbish_dies_and_returns_is_kept_whole_and_replays_identically()
    {
        using CockpitProcess cockpit = new();
        using TcpListener listener = new(IPAddress.Loopback, 0);
        listener.Start();
        int port = ((IPEndPoint)listener.LocalEndpoint).Port;
        Task sender = SendAsync(listener);

        (int code, string output, string error) = await cockpit.RunAsync(
            cockpit.Live("--signal", $"tcp://127.0.0.1:{port}", "--digest", "--stop-after", "7s"));
        await sender;

        Assert.Equal(0, code);
        Assert.Contains("signal:good", output, StringComparison.Ordinal);
        Assert.Contains("SNR    7.5 dB", output, StringComparison.Ordinal);
        Parsed<Recording> read = Recording.ReadAll(Directory.GetDirectories(cockpit.Sessions).Single());
        Assert.True(read.Try(out Recording? recording, out ParseError? _));
        Assert.Empty(recording.Notes);
        Assert.Contains(recording.Envelopes, e => e.Event is FeedLost);
        Assert.Contains(recording.Envelopes, e => e.Event is FeedLineRejected);
        Assert.True(recording.Envelopes.Count(e => e.Event is FeedConnected) >= 2, "the second connection is missing");

        (int checkCode, string check, _) = await cockpit.RunAsync("check", "session", Directory.GetDirectories(cockpit.Sessions).Single());
        Assert.Equal(0, checkCode);
        Assert.Equal(DigestOf(error), DigestOf(check));
    }

    [Fact]
    public async Task The_demo_replays_identically()
    {
        using CockpitProcess cockpit = new();
        (int code, _, string error) = await cockpit.RunAsync("--plain", "--sound", "off", "--digest", "--stop-after", "4s", "--sessions", cockpit.Sessions);
        (int checkCode, string check, _) = await cockpit.RunAsync("check", "session", Directory.GetDirectories(cockpit.Sessions).Single());

        Assert.Equal(0, code);
        Assert.Equal(0, checkCode);
        Assert.Equal(DigestOf(error), DigestOf(check));
    }

    [Fact]
    public async Task Twenty_kills_in_the_middle_of_a_pass_lose_at_most_the_last_second()
    {
        Xoshiro256 chance = new(20);
        double[] moments = [.. Enumerable.Range(0, 20).Select(_ => 0.2 + (1.5 * chance.NextUnit()))];
        await Parallel.ForEachAsync(moments, new ParallelOptions { MaxDegreeOfParallelism = 4 }, KillAsync);

        static async ValueTask KillAsync(double seconds, CancellationToken cancellation)
        {
            using CockpitProcess cockpit = new();
            using Process process = cockpit.Start(cockpit.Live());
            string? first = await process.StandardOutput.ReadLineAsync(cancellation).AsTask().WaitAsync(TimeSpan.FromSeconds(60), cancellation);
            Assert.NotNull(first);
            Stopwatch since = Stopwatch.StartNew();
            await Task.Delay(TimeSpan.FromSeconds(seconds), cancellation);
            process.Kill();
            double lived = since.Elapsed.TotalSeconds;
            await process.WaitForExitAsync(cancellation);

            Assert.True(Recording.ReadAll(Directory.GetDirectories(cockpit.Sessions).Single()).Try(out Recording? recording, out ParseError? error), $"{error}");
            Assert.IsType<SessionOpened>(recording.Envelopes[0].Event);
            TimeSpan opened = recording.Envelopes[0].Elapsed;
            Assert.True((recording.Envelopes[^1].Elapsed - opened).TotalSeconds >= lived - 1.0, $"lived {lived:0.00} s, kept {recording.Envelopes[^1].Elapsed}");
            Assert.DoesNotContain(recording.Notes, n => n.Kind is JournalNoteKind.Damaged or JournalNoteKind.Gap or JournalNoteKind.OutOfOrder);
        }
    }

    private static async Task SendAsync(TcpListener listener)
    {
        using (TcpClient first = await listener.AcceptTcpClientAsync())
        {
            await SendLinesAsync(first, "snr=7.5 lock=1\n", 15);
            await SendLinesAsync(first, "7,4\nhello\nsnr=nan\n", 1);
        }

        using TcpClient second = await listener.AcceptTcpClientAsync();
        await SendLinesAsync(second, "{\"snr\":7.5,\"lock\":true}\n", 10);
    }

    private static async Task SendLinesAsync(TcpClient client, string lines, int times)
    {
        byte[] bytes = Encoding.ASCII.GetBytes(lines);
        for (int i = 0; i < times; i++)
        {
            await client.GetStream().WriteAsync(bytes);
            await Task.Delay(100);
        }
    }

    private static string DigestOf(string text) => text.Split('\n').Single(line => line.StartsWith("digest ", StringComparison.Ordinal)).Trim();
}
