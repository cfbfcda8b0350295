using System.Collections.Immutable;
using System.Net;
using Cockpit.Core.Formats;
using Cockpit.Core.Sensing;
using Cockpit.Devices.Phone;

namespace Cockpit.Tests.Phone;

public sealed class PhoneAddressTests
{
    [Theory]
    [InlineData("", null, 17643, DeviceAxis.Camera)]
    [InlineData("auto?axis=top", null, 17643, DeviceAxis.Top)]
    [InlineData("192.168.43.17", "192.168.43.17", 17643, DeviceAxis.Camera)]
    [InlineData("192.168.43.17:0?axis=screen&north=true", "192.168.43.17", 0, DeviceAxis.Screen)]
    [InlineData("[fd00::17]:5000", "fd00::17", 5000, DeviceAxis.Camera)]
    [InlineData("fd00::17", "fd00::17", 17643, DeviceAxis.Camera)]
    [InlineData("127.0.0.1", "127.0.0.1", 17643, DeviceAxis.Camera)]
    public void An_address_is_read_with_its_port_and_how_the_phone_lies(string text, string? address, int port, DeviceAxis axis)
    {
        Assert.True(PhoneAddress.Read(text, "--phone").Try(out PhoneAddress? read, out ParseError? _));
        Assert.Equal((address is null ? null : IPAddress.Parse(address), port, axis), (read.Address, read.Port, read.Options.Axis));
    }

    [Theory]
    [InlineData("0.0.0.0", "0.0.0.0 is no single network")]
    [InlineData("[::]:17643", ":: is no single network")]
    [InlineData("224.0.0.1:70000", "'70000' is no port")]
    [InlineData("192.168.43.17:-1", "'-1' is no port")]
    [InlineData("192.168.43.17:", "'' is no port")]
    [InlineData("[fd00::17]x", "'' is no port")]
    [InlineData("fe80::1", "fe80::1 needs a zone")]
    [InlineData("laptop.local", "'laptop.local' is no address of this computer")]
    [InlineData("17643", "'17643' is no address of this computer")]
    [InlineData("[fd00::17", "'[fd00::17' is no address of this computer")]
    [InlineData("192.168.43.17?axis=left", "'axis=left' is not known")]
    [InlineData("192.168.43.17?tilt", "'tilt' is not known")]
    public void What_is_no_address_gets_one_sentence(string text, string begins)
    {
        Assert.False(PhoneAddress.Read(text, "--phone").Try(out PhoneAddress? _, out ParseError? error));
        Assert.StartsWith(begins, error.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("192.168.43.17", "lo 127.0.0.1 v", "wlan0 192.168.43.17 g")]
    [InlineData("192.168.43.17", "docker0 172.17.0.1 v", "wlan0 192.168.43.17 g", "wlan0 fe80::1", "tun0 10.8.0.2 v")]
    [InlineData("192.168.43.17", "wlan0 192.168.43.17 g", "eth0 192.168.1.5 d")]
    [InlineData("192.168.43.17", "wlan0 192.168.43.17 g", "wlan0 fd00::17 g", "wlan0 2001:db8::17 g")]
    [InlineData("10.42.0.1", "wlan0 10.42.0.1")]
    [InlineData("192.168.43.17", "wlan0 10.42.0.1", "eth0 192.168.43.17 g")]
    [InlineData("fd00::17", "wlan0 fd00::17 g", "wlan0 2001:db8::17 g", "wlan0 fe80::17")]
    [InlineData("203.0.113.9", "eth0 203.0.113.9 g")]
    public void The_only_address_that_can_be_meant_is_taken(string chosen, params string[] places)
    {
        Assert.True(NetworkPlace.Choose(Places(places), "--phone").Try(out IPAddress? address, out ParseError? _));
        Assert.Equal(IPAddress.Parse(chosen), address);
    }

    [Fact]
    public void Of_several_that_could_be_meant_none_is_taken_and_all_are_named()
    {
        Assert.False(NetworkPlace.Choose(Places("eth0 192.168.1.5 g", "wlan0 192.168.43.17 g", "lo 127.0.0.1 v"), "--phone").Try(out IPAddress? _, out ParseError? error));
        Assert.Equal("several networks could be meant: 192.168.1.5 (eth0), 192.168.43.17 (wlan0); say which, like --phone 192.168.1.5", error.Message);
        Assert.False(NetworkPlace.Choose(Places("lo 127.0.0.1 v", "eth0 192.168.1.5 d"), "--phone").Try(out _, out error));
        Assert.StartsWith("this computer is in no network that a phone could be in", error.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("docker0", true)]
    [InlineData("br-1a2b", true)]
    [InlineData("vEthernet (WSL)", true)]
    [InlineData("utun3", true)]
    [InlineData("wlan0", false)]
    [InlineData("en0", false)]
    [InlineData("enp3s0", false)]
    [InlineData("Wi-Fi", false)]
    [InlineData("Local Area Connection", false)]
    public void Networks_inside_the_computer_are_told_by_their_names(string name, bool inside) => Assert.Equal(inside, NetworkPlace.IsInside(name));

    /// <summary>"device address flags": v virtual, d down, g leads on.</summary>
    private static ImmutableArray<NetworkPlace> Places(params string[] rows) =>
    [
        .. rows.Select(row => row.Split(' ')).Select(parts => new NetworkPlace(
            parts[0], IPAddress.Parse(parts[1]), !Has(parts, 'd'), Has(parts, 'v'), Has(parts, 'g'))),
    ];

    private static bool Has(string[] parts, char flag) => parts.Length > 2 && parts[2].Contains(flag, StringComparison.Ordinal);
}
