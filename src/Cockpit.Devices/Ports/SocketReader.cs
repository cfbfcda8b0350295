using System.Net.Sockets;

namespace Cockpit.Devices.Ports;

/// <summary>Reads one TCP connection to its end.</summary>
internal static class SocketReader
{
    private const int BufferBytes = 16 * 1024;

    /// <summary>Reads until the other side closes.</summary>
    /// <param name="socket">Connected.</param>
    /// <param name="listener">Gets the bytes.</param>
    /// <param name="worked">Called when bytes came: the connection is of use.</param>
    /// <param name="stop">Ends the reading.</param>
    /// <exception cref="SocketException">The connection broke.</exception>
    internal static async Task ReadAsync(Socket socket, IPortListener listener, Action worked, CancellationToken stop)
    {
        byte[] buffer = new byte[BufferBytes];
        while (await socket.ReceiveAsync(buffer.AsMemory(), stop) is > 0 and int count)
        {
            worked();
            listener.Received(buffer.AsSpan(0, count));
        }
    }

    /// <summary>Lets the system find out within about 15 s that the other computer is gone without a word.</summary>
    internal static void NoticeDeadPeers(Socket socket)
    {
        try
        {
            socket.SetSocketOption(SocketOptionLevel.Socket, SocketOptionName.KeepAlive, true);
            socket.SetSocketOption(SocketOptionLevel.Tcp, SocketOptionName.TcpKeepAliveTime, 5);
            socket.SetSocketOption(SocketOptionLevel.Tcp, SocketOptionName.TcpKeepAliveInterval, 3);
            socket.SetSocketOption(SocketOptionLevel.Tcp, SocketOptionName.TcpKeepAliveRetryCount, 3);
        }
        catch (SocketException)
        {
            // A system without these options only finds out later; the age of the last value is on the screen all the same.
        }
    }
}
