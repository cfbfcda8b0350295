using System.Collections.Concurrent;
using System.Net;
using System.Net.Sockets;
using Cockpit.Devices.Ports;

namespace Cockpit.Devices.Outlets;

/// <summary>Sends to whoever is connected to a TCP port of this computer.</summary>
/// <param name="host">Address to listen at; empty for the loopback address only.</param>
/// <param name="port">Port; 0 lets the system choose, and the choice is kept.</param>
public sealed class TcpServerOutlet(string host, int port) : IOutlet
{
    private readonly ConcurrentDictionary<Socket, byte> _takers = new();
    private Socket? _listener;
    private int _port = port;

    /// <inheritdoc/>
    public string Where => "tcp " + SocketWords.Place(host, _port);

    /// <summary>The port, once it is open.</summary>
    public int Port => _port;

    /// <inheritdoc/>
    public void Appear()
    {
        Socket? listener = null;
        try
        {
            IPEndPoint place = new(SocketWords.ListeningAddress(host), _port);
            listener = new Socket(place.AddressFamily, SocketType.Stream, ProtocolType.Tcp);
            listener.Bind(place);
            listener.Listen(backlog: 4);
            _port = ((IPEndPoint?)listener.LocalEndPoint)?.Port ?? _port;
            _listener = listener;
        }
        catch (SocketException failure)
        {
            listener?.Dispose();
            throw new PortException(SocketWords.OfListening(failure, host, _port), failure);
        }
    }

    /// <inheritdoc/>
    public async ValueTask SendAsync(ReadOnlyMemory<byte> bytes, CancellationToken stop)
    {
        while (_listener is { } listener && listener.Poll(0, SelectMode.SelectRead))
        {
            Socket taker = await listener.AcceptAsync(stop);
            taker.NoDelay = true;
            _takers.TryAdd(taker, 0);
        }

        foreach (Socket taker in _takers.Keys)
        {
            try
            {
                await taker.SendAsync(bytes, stop);
            }
            catch (SocketException)
            {
                // Whoever went away is not sent to any more.
                _takers.TryRemove(taker, out _);
                taker.Dispose();
            }
        }
    }

    /// <inheritdoc/>
    public void Leave()
    {
        _listener?.Dispose();
        _listener = null;
        foreach (Socket taker in _takers.Keys)
        {
            taker.Dispose();
        }

        _takers.Clear();
    }

    /// <inheritdoc/>
    public ValueTask DisposeAsync()
    {
        Leave();
        return ValueTask.CompletedTask;
    }
}
