using System.Net;
using System.Net.Sockets;

namespace Cockpit.Devices.Ports;

/// <summary>Bytes from whoever connects to a TCP port of this computer, one sender at a time: the next waits until the first is gone, or has said nothing for a while.</summary>
/// <param name="host">Address to listen at; empty for the loopback address only.</param>
/// <param name="port">Port; 0 lets the system choose.</param>
/// <param name="time">What waiting goes by.</param>
public sealed class TcpListenerPort(string host, int port, TimeProvider time) : IPort
{
    /// <summary>A sender that connects and goes again at once must not fill the journal.</summary>
    private static readonly TimeSpan Breath = TimeSpan.FromMilliseconds(200);

    /// <summary>A sender that has said nothing for so long gives way to one that waits.</summary>
    private static readonly TimeSpan Idle = TimeSpan.FromSeconds(2);

    private static readonly TimeSpan LookForNext = TimeSpan.FromMilliseconds(250);

    private Socket? _listener;
    private long _lastBytes;

    /// <inheritdoc/>
    public string Where => "tcp " + (LocalEndPoint?.ToString() ?? SocketWords.Place(host, port));

    /// <summary>Where it listens; null before it is open.</summary>
    public IPEndPoint? LocalEndPoint => _listener?.LocalEndPoint as IPEndPoint;

    /// <inheritdoc/>
    public void Open()
    {
        try
        {
            IPEndPoint place = new(SocketWords.ListeningAddress(host), port);
            _listener = new Socket(place.AddressFamily, SocketType.Stream, ProtocolType.Tcp);
            _listener.Bind(place);
            _listener.Listen(backlog: 4);
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
        complaint.Connected(Where + ", waiting for a sender");
        while (true)
        {
            try
            {
                if (_listener is null)
                {
                    Open();
                }

                await ServeAsync(complaint, listener, stop);
                backOff.Reset();
                await Task.Delay(Breath, time, stop);
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
        _listener?.Dispose();
        _listener = null;
    }

    private async Task ServeAsync(Complaint complaint, IPortListener listener, CancellationToken stop)
    {
        if (_listener is not { } open)
        {
            return;
        }

        using Socket sender = await open.AcceptAsync(stop);
        string who = sender.RemoteEndPoint?.ToString() ?? "a sender";
        complaint.Connected($"{Where} from {who}");
        string reason;
        try
        {
            SocketReader.NoticeDeadPeers(sender);
            reason = await ReadAsync(sender, open, listener, stop)
                ? $"the sender {who} closed the connection"
                : $"the sender {who} says nothing and gives way to the next";
        }
        catch (SocketException)
        {
            reason = $"the connection to the sender {who} broke";
        }

        complaint.Lost($"{reason}; another may connect to {Where}");
    }

    /// <summary>Reads a sender to its end, or until it is idle while another waits.</summary>
    /// <returns>Whether it came to its end.</returns>
    private async Task<bool> ReadAsync(Socket sender, Socket open, IPortListener listener, CancellationToken stop)
    {
        using CancellationTokenSource givesWay = CancellationTokenSource.CreateLinkedTokenSource(stop);
        Interlocked.Exchange(ref _lastBytes, time.GetTimestamp());
        Task reading = SocketReader.ReadAsync(sender, listener, () => Interlocked.Exchange(ref _lastBytes, time.GetTimestamp()), givesWay.Token);
        while (await Task.WhenAny(reading, Task.Delay(LookForNext, time, stop)) != reading)
        {
            bool idle = time.GetElapsedTime(Interlocked.Read(ref _lastBytes)) >= Idle;
            if (idle && open.Poll(TimeSpan.Zero, SelectMode.SelectRead))
            {
                await givesWay.CancelAsync();
            }
        }

        try
        {
            await reading;
            return true;
        }
        catch (OperationCanceledException) when (!stop.IsCancellationRequested)
        {
            return false;
        }
    }
}
