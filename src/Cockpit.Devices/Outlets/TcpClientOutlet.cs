using System.Net.Sockets;
using Cockpit.Devices.Ports;

namespace Cockpit.Devices.Outlets;

/// <summary>Connects to a TCP port and sends to it; tries to connect again with every line while nobody is there.</summary>
/// <param name="host">Name or address.</param>
/// <param name="port">Its port.</param>
public sealed class TcpClientOutlet(string host, int port) : IOutlet
{
    private TcpClient? _client;
    private bool _here;

    /// <inheritdoc/>
    public string Where => "tcp " + SocketWords.Place(host, port);

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
            if (_client is null)
            {
                _client = new TcpClient { NoDelay = true };
                await _client.ConnectAsync(host, port, stop);
            }

            await _client.Client.SendAsync(bytes, stop);
        }
        catch (SocketException)
        {
            // Nobody is there: this line is lost, the next one tries again.
            _client?.Dispose();
            _client = null;
        }
    }

    /// <inheritdoc/>
    public void Leave()
    {
        _here = false;
        _client?.Dispose();
        _client = null;
    }

    /// <inheritdoc/>
    public ValueTask DisposeAsync()
    {
        Leave();
        return ValueTask.CompletedTask;
    }
}
