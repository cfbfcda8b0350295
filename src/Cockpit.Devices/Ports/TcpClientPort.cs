using System.Net.Sockets;
using System.Text;

namespace Cockpit.Devices.Ports;

/// <summary>Bytes from a TCP server; connects when it can, and again after 1, 2, 5, 10, 10, ... s.</summary>
/// <param name="host">Name or address of the server.</param>
/// <param name="port">Its port.</param>
/// <param name="time">What waiting goes by.</param>
/// <param name="protocol">What it is called in front of its place, for people.</param>
/// <param name="question">Sent once on each connection, for a server that speaks only when asked; empty where it speaks by itself.</param>
public sealed class TcpClientPort(string host, int port, TimeProvider time, string protocol = "tcp", string question = "") : IPort
{
    private static readonly TimeSpan ConnectPatience = TimeSpan.FromSeconds(5);

    /// <inheritdoc/>
    public string Where { get; } = protocol + " " + SocketWords.Place(host, port);

    /// <inheritdoc/>
    public void Open()
    {
        // A server that is not there yet is no mistake: it may come later.
    }

    /// <inheritdoc/>
    public async Task RunAsync(IPortListener listener, CancellationToken stop)
    {
        BackOff backOff = new(time);
        Complaint complaint = new(listener);
        while (true)
        {
            string reason = await ServeOnceAsync(complaint, listener, backOff, stop);
            stop.ThrowIfCancellationRequested();
            complaint.Lost(reason + "; it is tried again");
            await backOff.WaitAsync(stop);
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        // A connection lives inside RunAsync and ends with it.
    }

    private async Task<string> ServeOnceAsync(Complaint complaint, IPortListener listener, BackOff backOff, CancellationToken stop)
    {
        using TcpClient client = new();
        try
        {
            await ConnectAsync(client, stop);
            complaint.Connected(Where);
            if (question.Length > 0)
            {
                await client.Client.SendAsync(Encoding.ASCII.GetBytes(question), stop);
            }

            await SocketReader.ReadAsync(client.Client, listener, backOff.Reset, stop);
            return $"{SocketWords.Place(host, port)} closed the connection";
        }
        catch (SocketException failure)
        {
            return SocketWords.OfConnection(failure, host, port);
        }
        catch (OperationCanceledException) when (!stop.IsCancellationRequested)
        {
            return $"{SocketWords.Place(host, port)} does not answer";
        }
    }

    private async Task ConnectAsync(TcpClient client, CancellationToken stop)
    {
        using CancellationTokenSource patience = new(ConnectPatience, time);
        using CancellationTokenSource either = CancellationTokenSource.CreateLinkedTokenSource(stop, patience.Token);
        await client.ConnectAsync(host, port, either.Token);
        SocketReader.NoticeDeadPeers(client.Client);
    }
}
