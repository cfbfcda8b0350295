using System.Net.Sockets;
using Cockpit.Devices.Ports;

namespace Cockpit.Devices.Outlets;

/// <summary>Sends each line as a datagram.</summary>
/// <param name="host">Name or address; empty for the loopback address.</param>
/// <param name="port">Its port.</param>
public sealed class UdpOutlet(string host, int port) : IOutlet
{
    private readonly UdpClient _client = new();
    private bool _here;

    /// <inheritdoc/>
    public string Where => "udp " + SocketWords.Place(host, port);

    /// <inheritdoc/>
    public void Appear() => _here = true;

    /// <inheritdoc/>
    public async ValueTask SendAsync(ReadOnlyMemory<byte> bytes, CancellationToken stop)
    {
        if (!_here)
        {
            return;
        }

        try
        {
            await _client.SendAsync(bytes, host.Length == 0 ? "127.0.0.1" : host, port, stop);
        }
        catch (SocketException failure) when (failure.SocketErrorCode is SocketError.ConnectionRefused or SocketError.ConnectionReset)
        {
            // Nobody listens now; a datagram that nobody takes is lost.
        }
        catch (SocketException failure)
        {
            throw new PortException(SocketWords.OfConnection(failure, host, port), failure);
        }
    }

    /// <inheritdoc/>
    public void Leave() => _here = false;

    /// <inheritdoc/>
    public ValueTask DisposeAsync()
    {
        _client.Dispose();
        return ValueTask.CompletedTask;
    }
}
