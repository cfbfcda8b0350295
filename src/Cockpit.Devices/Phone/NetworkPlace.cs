using System.Collections.Immutable;
using System.Net;
using System.Net.NetworkInformation;
using System.Net.Sockets;
using Cockpit.Core.Formats;

namespace Cockpit.Devices.Phone;

/// <summary>An address of this computer, and what is known of the network behind it.</summary>
/// <param name="Name">Of the network device.</param>
/// <param name="Address">The address.</param>
/// <param name="IsUp">Whether it works.</param>
/// <param name="IsVirtual">Loopback, tunnel, bridge or a network inside this computer.</param>
/// <param name="HasGateway">Whether it leads on to others.</param>
public sealed record NetworkPlace(string Name, IPAddress Address, bool IsUp, bool IsVirtual, bool HasGateway)
{
    /// <summary>Beginnings of the names of networks that no phone is in.</summary>
    private static readonly ImmutableArray<string> Inside =
        ["docker", "br-", "veth", "virbr", "vmnet", "vboxnet", "vethernet", "lxc", "lxd", "cni", "flannel", "tun", "tap", "wg", "zt", "utun", "tailscale", "ppp", "sit", "podman", "bridge", "awdl", "llw"];

    /// <summary>Those of this computer.</summary>
    public static ImmutableArray<NetworkPlace> OfThisComputer()
    {
        ImmutableArray<NetworkPlace>.Builder places = ImmutableArray.CreateBuilder<NetworkPlace>();
        foreach (NetworkInterface device in NetworkInterface.GetAllNetworkInterfaces())
        {
            IPInterfaceProperties properties = device.GetIPProperties();
            bool leadsOn = properties.GatewayAddresses.Any(gateway => !gateway.Address.Equals(IPAddress.Any) && !gateway.Address.Equals(IPAddress.IPv6Any));
            bool inside = device.NetworkInterfaceType is NetworkInterfaceType.Loopback or NetworkInterfaceType.Tunnel || IsInside(device.Name);
            places.AddRange(properties.UnicastAddresses.Select(own =>
                new NetworkPlace(device.Name, own.Address, device.OperationalStatus is OperationalStatus.Up or OperationalStatus.Unknown, inside, leadsOn)));
        }

        return places.ToImmutable();
    }

    /// <summary>Whether a device of that name is a network inside this computer, or a tunnel.</summary>
    public static bool IsInside(string name) => name is "lo" or "lo0" || Inside.Any(start => name.StartsWith(start, StringComparison.OrdinalIgnoreCase));

    /// <summary>Chooses the address at which a phone finds this computer.</summary>
    /// <param name="places">Its addresses.</param>
    /// <param name="source">What asked, for the error.</param>
    /// <returns>The only one that can be meant; else one sentence with those that could be.</returns>
    public static Parsed<IPAddress> Choose(ImmutableArray<NetworkPlace> places, string source)
    {
        NetworkPlace[] usable = [.. places.Where(place => place is { IsUp: true, IsVirtual: false } && !IPAddress.IsLoopback(place.Address) && Rank(place) < Useless)];
        if (usable.Length == 0)
        {
            return new ParseError(source, 0, 0, "this computer is in no network that a phone could be in; join the phone's own hotspot, or give an address of this computer");
        }

        // The best kind counts, and among the best only one may be meant.
        int best = usable.Min(Rank);
        IPAddress[] meant = [.. usable.Where(place => Rank(place) == best).Select(place => place.Address).Distinct()];
        return meant is [var only]
            ? only
            : new ParseError(source, 0, 0, $"several networks could be meant: {string.Join(", ", usable.OrderBy(Rank).Select(place => $"{place.Address.ToString()} ({place.Name})"))}; say which, like {source} {meant[0].ToString()}");
    }

    private const int Useless = 99;

    /// <summary>Those that lead on before the others, private IPv4 before other IPv4, before IPv6.</summary>
    private static int Rank(NetworkPlace place)
    {
        int kind = place.Address.AddressFamily switch
        {
            AddressFamily.InterNetwork => IsPrivate(place.Address) ? 0 : IsLinkLocal(place.Address) ? 6 : 2,
            AddressFamily.InterNetworkV6 => place.Address.IsIPv6LinkLocal || place.Address.IsIPv6Multicast ? Useless : place.Address.IsIPv6UniqueLocal ? 3 : 4,
            _ => Useless,
        };
        return kind == Useless ? Useless : kind + (place.HasGateway ? 0 : 10);
    }

    /// <summary>RFC 1918.</summary>
    private static bool IsPrivate(IPAddress address) => address.GetAddressBytes() is [10, ..] or [172, >= 16 and <= 31, ..] or [192, 168, ..];

    /// <summary>RFC 3927: two computers joined without anything else.</summary>
    private static bool IsLinkLocal(IPAddress address) => address.GetAddressBytes() is [169, 254, ..];
}
