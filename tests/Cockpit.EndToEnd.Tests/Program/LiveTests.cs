using System.Diagnostics;
using System.Net;
using System.Net.Sockets;
using System.Text;
using Cockpit.Core.Chance;
using Cockpit.Core.Formats;
using Cockpit.Core.Orbit;
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

    // A catalogue number that has no room in a TLE, and more digits than one holds: both are in the journal as they were in the file.
    [Fact]
    public async Task Live_flies_what_passes_lists_and_keeps_its_elements_to_the_last_digit()
    {
        using CockpitProcess cockpit = new();
        string file = Path.Combine(cockpit.Folder, "elements.kvn");
        await File.WriteAllTextAsync(file, """
            CCSDS_OMM_VERS = 3.0
            OBJECT_NAME = FENHERON 7
            OBJECT_ID = 2026-014A
            CENTER_NAME = EARTH
            REF_FRAME = TEME
            TIME_SYSTEM = UTC
            MEAN_ELEMENT_THEORY = SGP4
            EPOCH = 2026-11-25T00:33:26.006112
            MEAN_MOTION = 14.1259251845123
            ECCENTRICITY = 0.00052691234
            INCLINATION = 98.81861234
            RA_OF_ASC_NODE = 153.75391234
            ARG_OF_PERICENTER = 308.71341234
            MEAN_ANOMALY = 69.41941234
            EPHEMERIS_TYPE = 0
            CLASSIFICATION_TYPE = U
            NORAD_CAT_ID = 799500129
            ELEMENT_SET_NO = 731
            REV_AT_EPOCH = 5156
            BSTAR = 0.00010514
            MEAN_MOTION_DOT = 0.00000043
            MEAN_MOTION_DDOT = 0.0
            """, CancellationToken.None);
        string[] place = ["--elements", file, "--station", "47.8,11.2,520"];
        (int listed, string passes, _) = await cockpit.RunAsync(["passes", .. place, "--from", "2026-11-26T17:00:00Z", "--for", "2h", "--format", "csv"]);
        Assert.Equal(0, listed);
        Assert.Contains("FENHERON 7,799500129,", passes, StringComparison.Ordinal);

        (int code, _, string error) = await cockpit.RunAsync(
            ["live", .. place, "--at", "2026-11-26T17:48:00Z", "--sessions", cockpit.Sessions, "--sound", "off", "--plain", "--digest", "--stop-after", "1s"]);
        Assert.Equal(0, code);
        string session = Directory.GetDirectories(cockpit.Sessions).Single();
        Assert.True(Recording.ReadAll(session).Try(out Recording? recording, out ParseError? _));
        ElementSet kept = Assert.IsType<ElementSet>(Assert.IsType<SessionOpened>(recording.Envelopes[0].Event).Settings.Elements);
        Assert.Equal((799500129, 14.1259251845123, 0.00052691234), (kept.CatalogNumber, kept.MeanMotionRevPerDay, kept.Eccentricity));

        (_, string check, _) = await cockpit.RunAsync("check", "session", session);
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
