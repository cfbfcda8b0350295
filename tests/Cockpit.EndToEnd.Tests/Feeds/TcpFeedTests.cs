using System.Net;
using System.Net.Sockets;
using Cockpit.Devices.Feeds;
using Cockpit.Devices.Ports;
using Cockpit.Session.Events;

namespace Cockpit.EndToEnd.Tests.Feeds;

public sealed class TcpFeedTests
{
    [Fact]
    public async Task A_sender_may_come_late_stall_send_rubbish_die_and_come_back()
    {
        int port = FreePort();
        EventWait events = new();
        await using LineFeed feed = SignalFeeds.Started($"tcp://127.0.0.1:{port}", events);
        Assert.Equal($"nobody listens at 127.0.0.1:{port}; it is tried again", events.Next<FeedLost>().Reason);

        using (TcpListener server = new(IPAddress.Loopback, port))
        {
            server.Start();
            using TcpClient sender = await server.AcceptTcpClientAsync(CancellationToken.None);
            Assert.Equal($"tcp 127.0.0.1:{port}", events.Next<FeedConnected>().Where);
            await SendAsync(sender, "level=-61.5\n"u8.ToArray());
            events.Level(-61.5);

            // A stall in the middle of a line is no end of it.
            await SendAsync(sender, "level=-6"u8.ToArray());
            await SendAsync(sender, "2.5\n"u8.ToArray());
            events.Level(-62.5);

            await SendAsync(sender, [0x00, 0xFF, 0x13, 0x0A, 0x7B, 0x22, 0x0A]);
            Assert.Equal(1, events.Next<FeedLineRejected>().Total);

            // Bytes that are no text cost the trust in bare numbers: the sixth good line in a row counts again.
            await SendAsync(sender, "level=-63.5\nlevel=-63.5\nlevel=-63.5\nlevel=-63.5\nlevel=-63.5\nlevel=-63.5\nlevel=-99"u8.ToArray());
            events.Level(-63.5);
        }

        Assert.Contains("it is tried again", events.Next<FeedLost>().Reason, StringComparison.Ordinal);
        using TcpListener again = new(IPAddress.Loopback, port);
        again.Start();
        using TcpClient back = await again.AcceptTcpClientAsync(CancellationToken.None);
        events.Next<FeedConnected>();

        // What the dead sender left unfinished must not join what the new one says.
        await SendAsync(back, "level=-64.5\n"u8.ToArray());
        events.Level(-64.5);
        Assert.Equal(2, feed.Counts.Rejected);
    }

    [Fact]
    public async Task A_name_that_nobody_knows_is_told_and_tried_again()
    {
        // A label of more than 63 letters is no name (RFC 1035, 2.3.4), so that no name server is asked.
        string name = new('x', 64);
        EventWait events = new();
        await using LineFeed feed = SignalFeeds.Started($"tcp://{name}:5010", events);
        Assert.Equal($"the host {name} is not known; it is tried again", events.Next<FeedLost>().Reason);
    }

    [Fact]
    public async Task A_listener_takes_one_sender_after_another()
    {
        EventWait events = new();
        TcpListenerPort port = new("", 0, TimeProvider.System);
        await using LineFeed feed = SignalFeeds.Started(port, events);
        IPEndPoint place = Assert.IsType<IPEndPoint>(port.LocalEndPoint);
        Assert.Equal(IPAddress.Loopback, place.Address);
        Assert.Equal($"tcp {place}, waiting for a sender", events.Next<FeedConnected>().Where);
        for (int level = 1; level <= 2; level++)
        {
            using (TcpClient sender = new())
            {
                await sender.ConnectAsync(place, CancellationToken.None);
                events.Next<FeedConnected>();
                await SendAsync(sender, [.. "snr=x\nlevel="u8, (byte)('0' + level), (byte)'\n']);
                events.Level(level);
            }

            Assert.Contains("closed the connection", events.Next<FeedLost>().Reason, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task A_sender_that_says_nothing_gives_way_to_the_next()
    {
        EventWait events = new();
        TcpListenerPort port = new("", 0, TimeProvider.System);
        await using LineFeed feed = SignalFeeds.Started(port, events);
        IPEndPoint place = Assert.IsType<IPEndPoint>(port.LocalEndPoint);
        using TcpClient idle = new();
        await idle.ConnectAsync(place, CancellationToken.None);
        events.Next<FeedConnected>(connected => connected.Where.Contains("from", StringComparison.Ordinal));
        using TcpClient next = new();
        await next.ConnectAsync(place, CancellationToken.None);
        await SendAsync(next, "level=7\n"u8.ToArray());
        Assert.Contains("says nothing and gives way to the next", events.Next<FeedLost>().Reason, StringComparison.Ordinal);
        events.Level(7);
    }

    [Theory]
    [InlineData("tcp-listen")]
    [InlineData("udp")]
    public void A_port_in_use_is_told_to_the_caller(string kind)
    {
        using Socket other = kind is "udp"
            ? new(AddressFamily.InterNetwork, SocketType.Dgram, ProtocolType.Udp)
            : new(AddressFamily.InterNetwork, SocketType.Stream, ProtocolType.Tcp);
        other.Bind(new IPEndPoint(IPAddress.Loopback, 0));
        if (kind is not "udp")
        {
            other.Listen();
        }

        int port = ((IPEndPoint)other.LocalEndPoint!).Port;
        using IPort taken = SignalFeeds.PortAt($"{kind}://:{port}");
        PortException refusal = Assert.Throws<PortException>(taken.Open);
        Assert.Equal($"127.0.0.1:{port} is in use by another program; end that one or choose another port", refusal.Message);
    }

    [Fact]
    public void An_address_of_another_computer_cannot_be_listened_at()
    {
        using IPort elsewhere = SignalFeeds.PortAt("udp://192.0.2.1:5010");
        PortException refusal = Assert.Throws<PortException>(elsewhere.Open);
        Assert.Equal("192.0.2.1 is not an address of this computer; leave the host out, or give 0.0.0.0 for all networks", refusal.Message);
    }

    private static async Task SendAsync(TcpClient sender, byte[] bytes) => await sender.GetStream().WriteAsync(bytes, CancellationToken.None);

    private static int FreePort()
    {
        using TcpListener probe = new(IPAddress.Loopback, 0);
        probe.Start();
        return ((IPEndPoint)probe.LocalEndpoint).Port;
    }
}
