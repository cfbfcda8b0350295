using System.Globalization;
using System.Net;
using System.Net.Sockets;
using System.Text;
using Cockpit.Core.Formats;
using Cockpit.Devices.Journal;
using Cockpit.Session.Events;

namespace Cockpit.EndToEnd.Tests.Program;

/// <summary>This computer's clock in a session that happens now: against a real time server, and against the times of a feed.</summary>
public sealed class ClockTests
{
    private static readonly TimeSpan Ahead = TimeSpan.FromSeconds(3);

    // The feed runs 3 s ahead; the time server, which is this computer, knows better: no caution, whoever comes last.
    [TimeServerFact]
    public async Task A_real_time_server_is_believed_before_the_times_of_a_feed()
    {
        using CockpitProcess cockpit = new();
        int port = PeerProcess.FreePort();
        string settings = Path.Combine(cockpit.Folder, "chrony.conf");
        await File.WriteAllTextAsync(settings, string.Create(CultureInfo.InvariantCulture, $"""
            local stratum 10
            allow 127.0.0.1
            port {port}
            cmdport 0
            bindaddress 127.0.0.1
            bindcmdaddress /
            pidfile {cockpit.Folder}/chrony.pid

            """), CancellationToken.None);
        using PeerProcess server = new(File.Exists("/usr/sbin/chronyd") ? "/usr/sbin/chronyd" : "chronyd", "-U", "-x", "-d", "-u", Environment.UserName, "-f", settings);
        (Recording recording, string output) = await FlyAsync(cockpit, "--clock", $"ntp://127.0.0.1:{port}");
        ClockCompared[] compared = [.. recording.Envelopes.Select(e => e.Event).OfType<ClockCompared>()];
        ClockCompared served = Assert.Single(compared, told => told.Against.EndsWith(port.ToString(CultureInfo.InvariantCulture), StringComparison.Ordinal));
        Assert.Null(served.Trouble);
        Assert.InRange(served.Behind!.Value.TotalSeconds, -0.2, 0.2);
        Assert.Contains(compared, told => told.Against is "the times of signal");
        Assert.DoesNotContain("C corrects the predictions", output[output.IndexOf("clock within", StringComparison.Ordinal)..], StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_times_of_a_feed_are_a_caution_where_nothing_better_is_there()
    {
        using CockpitProcess cockpit = new();
        (Recording recording, string output) = await FlyAsync(cockpit);
        ClockCompared compared = Assert.Single(recording.Envelopes.Select(e => e.Event).OfType<ClockCompared>());
        Assert.Equal(Ahead.TotalSeconds, compared.Behind!.Value.TotalSeconds, 0.5);
        Assert.Matches("the clock is (2\\.[5-9]|3\\.0) s behind the times of signal: C corrects the predictions", output);
    }

    /// <summary>A session from now on, with lines ten times a second whose times run ahead.</summary>
    private static async Task<(Recording Recording, string Output)> FlyAsync(CockpitProcess cockpit, params string[] more)
    {
        using CancellationTokenSource stop = new();
        int port = PeerProcess.FreePort();
        Task sending = SendAsync(port, stop.Token);
        (int code, string output, string error) = await cockpit.RunAsync(
            ["live", "--elements", await ElementsOfTodayAsync(cockpit.Folder), "--station", "47.8,11.2,520", "--sessions", cockpit.Sessions, "--sound", "off", "--plain",
            "--signal", string.Create(CultureInfo.InvariantCulture, $"udp://:{port}"), "--stop-after", "15s", .. more]);
        await stop.CancelAsync();
        await sending;
        Assert.True(code == 0, error);
        Assert.True(Recording.ReadAll(Directory.GetDirectories(cockpit.Sessions).Single()).Try(out Recording? recording, out ParseError? _));
        return (recording, output);
    }

    private static async Task SendAsync(int port, CancellationToken stop)
    {
        using UdpClient sender = new();
        while (!stop.IsCancellationRequested)
        {
            string stamp = (TimeProvider.System.GetUtcNow() + Ahead).ToString("yyyy-MM-dd'T'HH:mm:ss.fff'Z'", CultureInfo.InvariantCulture);
            try
            {
                await sender.SendAsync(Encoding.ASCII.GetBytes($"t={stamp} snr=9.5\n"), new IPEndPoint(IPAddress.Loopback, port), CancellationToken.None);
            }
            catch (SocketException)
            {
                // Nobody listens yet.
            }

            await Task.Delay(100, stop).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        }
    }

    /// <summary>A made-up orbit whose elements are of this hour, so that it has passes whenever the test runs.</summary>
    private static async Task<string> ElementsOfTodayAsync(string folder)
    {
        string path = Path.Combine(folder, "today.kvn");
        await File.WriteAllTextAsync(path, MadeElements.Of(TimeProvider.System.GetUtcNow()), CancellationToken.None);
        return path;
    }
}
