using System.Globalization;
using System.Net;
using System.Net.Sockets;

namespace Cockpit.Devices.Ports;

/// <summary>What went wrong with a socket, for people.</summary>
internal static class SocketWords
{
    /// <summary>Host and port as people write them; the loopback address where no host is given.</summary>
    internal static string Place(string host, int port)
    {
        string shown = host.Length == 0 ? IPAddress.Loopback.ToString() : host;
        return shown.Contains(':', StringComparison.Ordinal)
            ? string.Create(CultureInfo.InvariantCulture, $"[{shown}]:{port}")
            : string.Create(CultureInfo.InvariantCulture, $"{shown}:{port}");
    }

    /// <summary>Why a connection failed or broke.</summary>
    internal static string OfConnection(SocketException failure, string host, int port) => failure.SocketErrorCode switch
    {
        SocketError.ConnectionRefused => $"nobody listens at {Place(host, port)}",
        SocketError.HostNotFound or SocketError.NoData or SocketError.TryAgain => $"the host {host} is not known",
        SocketError.TimedOut => $"{Place(host, port)} does not answer",
        SocketError.NetworkUnreachable or SocketError.HostUnreachable or SocketError.NetworkDown => $"there is no network path to {host}",
        SocketError.ConnectionReset or SocketError.ConnectionAborted => $"the connection to {Place(host, port)} broke",
        _ => $"{Place(host, port)} failed ({failure.Message})",
    };

    /// <summary>Why a port of this computer cannot be opened, and what to do.</summary>
    internal static string OfListening(SocketException failure, string host, int port) => failure.SocketErrorCode switch
    {
        SocketError.AddressAlreadyInUse => $"{Place(host, port)} is in use by another program; end that one or choose another port",
        SocketError.AccessDenied when port > 1023 => $"{Place(host, port)} is kept by the system or another program; choose another port",
        SocketError.AccessDenied => $"{Place(host, port)} may not be opened by this user; choose a port above 1023",
        SocketError.AddressNotAvailable => $"{host} is not an address of this computer; leave the host out, or give 0.0.0.0 for all networks",
        SocketError.HostNotFound or SocketError.NoData or SocketError.TryAgain => $"the host {host} is not known; give an address of this computer, or leave the host out",
        _ => $"{Place(host, port)} cannot be opened ({failure.Message}); choose another port",
    };

    /// <summary>The address to listen at.</summary>
    /// <param name="host">Empty for the loopback address: whoever wants the network must say so.</param>
    /// <exception cref="SocketException">The host is not known.</exception>
    internal static IPAddress ListeningAddress(string host) => host.Length == 0
        ? IPAddress.Loopback
        : IPAddress.TryParse(host, out IPAddress? address) ? address : Dns.GetHostAddresses(host)[0];
}
