using System.Net;
using System.Net.Sockets;

namespace Cockpit.Devices.Ports;

/// <summary>Bytes from datagrams to a UDP port of this computer; each datagram holds whole records.</summary>
/// <param name="host">Address to listen at; empty for the loopback address only.</param>
/// <param name="port">Port; 0 lets the system choose.</param>
/// <param name="time">What waiting goes by.</param>
public sealed class UdpPort(string host, int port, TimeProvider time) : IPort
{
    private const int LargestDatagram = 65536;

    private Socket? _socket;

    /// <inheritdoc/>
    public string Where => "udp " + (LocalEndPoint?.ToString() ?? SocketWords.Place(host, port));

    /// <summary>Where it listens; null before it is open.</summary>
    public IPEndPoint? LocalEndPoint => _socket?.LocalEndPoint as IPEndPoint;

    /// <inheritdoc/>
    public void Open()
    {
        try
        {
            IPEndPoint place = new(SocketWords.ListeningAddress(host), port);
            _socket = new Socket(place.AddressFamily, SocketType.Dgram, ProtocolType.Udp);
            _socket.Bind(place);
        }
        catch (SocketException failure)
        {
            Dispose();
            throw new PortException(SocketWords.OfListening(failure, host, port), failure);
        }
    }

    /// <inheritdoc/>
    public async Task RunAsync(IPortListener listener, CancellationToken stop)
    {
        BackOff backOff = new(time);
        Complaint complaint = new(listener);
        while (true)
        {
            try
            {
                if (_socket is null)
                {
                    Open();
                }

                complaint.Connected(Where);
                await ReceiveAsync(listener, backOff, stop);
            }
            catch (Exception failure) when (failure is SocketException or PortException)
            {
                complaint.Lost($"{Where} failed ({failure.Message}); it is tried again");
                Dispose();
                await backOff.WaitAsync(stop);
            }
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        _socket?.Dispose();
        _socket = null;
    }

    private async Task ReceiveAsync(IPortListener listener, BackOff backOff, CancellationToken stop)
    {
        byte[] datagram = new byte[LargestDatagram];
        EndPoint anybody = new IPEndPoint(_socket?.AddressFamily == AddressFamily.InterNetworkV6 ? IPAddress.IPv6Any : IPAddress.Any, 0);
        while (_socket is { } socket)
        {
            SocketReceiveFromResult received = await socket.ReceiveFromAsync(datagram.AsMemory(), SocketFlags.None, anybody, stop);
            backOff.Reset();
            listener.Received(datagram.AsSpan(0, received.ReceivedBytes), wholeRecords: true);
        }
    }
}
