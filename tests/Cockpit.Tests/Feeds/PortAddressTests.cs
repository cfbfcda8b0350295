using Cockpit.Core.Formats;
using Cockpit.Devices.Ports;

namespace Cockpit.Tests.Feeds;

public sealed class PortAddressTests
{
    public static TheoryData<string, PortAddress> Good => new()
    {
        { "-", new(PortKind.StandardInput) },
        { "tcp://localhost:5010", new(PortKind.TcpClient, "localhost", 5010) },
        { "tcp://192.0.2.7:1/", new(PortKind.TcpClient, "192.0.2.7", 1) },
        { "tcp://[2001:db8::7]:65535", new(PortKind.TcpClient, "2001:db8::7", 65535) },
        { "tcp-listen://:5010", new(PortKind.TcpListener, "", 5010) },
        { "tcp-listen://0.0.0.0:5010", new(PortKind.TcpListener, "0.0.0.0", 5010) },
        { "udp://:5010", new(PortKind.Udp, "", 5010) },
        { "udp://[::1]:5010", new(PortKind.Udp, "::1", 5010) },
        { "file:/tmp/level.txt", new(PortKind.File, Path: "/tmp/level.txt") },
        { "file:level.txt?from=start", new(PortKind.File, Path: "level.txt", FromStart: true) },
        { "file:C:\\pass\\level.txt?from=end", new(PortKind.File, Path: "C:\\pass\\level.txt") },
    };

    [Theory]
    [MemberData(nameof(Good))]
    public void A_good_address_is_read(string text, PortAddress expected) => Assert.Equal(expected, PortAddress.Read(text, "--signal").Value);

    [Theory]
    [InlineData("", "'' is not an address; write tcp://HOST:PORT, tcp-listen://:PORT, udp://:PORT, file:PATH or - (standard input)")]
    [InlineData("localhost:5010", "'localhost:5010' is not an address; write tcp://HOST:PORT, tcp-listen://:PORT, udp://:PORT, file:PATH or - (standard input)")]
    [InlineData("http://localhost:5010", "'http://localhost:5010' is not an address; write tcp://HOST:PORT, tcp-listen://:PORT, udp://:PORT, file:PATH or - (standard input)")]
    [InlineData("tcp://localhost", "'tcp://localhost' has no port; write tcp://HOST:PORT")]
    [InlineData("tcp://:5010", "'tcp://:5010' has no host; write tcp://HOST:PORT, or tcp-listen://:PORT to be connected to")]
    [InlineData("udp://:0", "'0' is not a port; write a number from 1 to 65535")]
    [InlineData("udp://:65536", "'65536' is not a port; write a number from 1 to 65535")]
    [InlineData("udp://:+5", "'+5' is not a port; write a number from 1 to 65535")]
    [InlineData("tcp://host:port", "'port' is not a port; write a number from 1 to 65535")]
    [InlineData("tcp://2001:db8::7:5010", "'2001:db8::7' is not a host; write a name or an address, an IPv6 address in brackets")]
    [InlineData("tcp://me@host:5010", "'me@host' is not a host; write a name or an address, an IPv6 address in brackets")]
    [InlineData("tcp://[host]:5010", "'[host]' is not a host; write a name or an address, an IPv6 address in brackets")]
    [InlineData("file:", "file: needs the path of a file, like file:/tmp/level.txt")]
    [InlineData("file:x?from=middle", "'middle' is not a place to read from; write ?from=start or ?from=end")]
    public void A_bad_address_is_told_with_what_to_write(string text, string sentence) =>
        Assert.Equal(new ParseError("--signal", 0, 0, sentence), PortAddress.Read(text, "--signal").Error);

    [Fact]
    public void A_host_longer_than_a_name_can_be_is_refused()
    {
        string host = new('h', 256);
        Assert.Equal($"'{host[..40]}...' is not a host; write a name or an address, an IPv6 address in brackets", PortAddress.Read($"tcp://{host}:5010", "--signal").Error?.Message);
        Assert.Null(PortAddress.Read($"tcp://{host[1..]}:5010", "--signal").Error);
    }
}
