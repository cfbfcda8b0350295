using System.Net;
using System.Net.Sockets;
using System.Text;

namespace Cockpit.EndToEnd.Tests.Feeds;

/// <summary>A server of lines on the loopback address; what it answers is its own matter.</summary>
internal abstract class LoopbackServer : IAsyncDisposable
{
    private readonly TcpListener _listener;
    private readonly CancellationTokenSource _stop = new();
    private readonly Task _run;

    protected LoopbackServer(Func<string, string?> respond, int port = 0)
    {
        Respond = respond;
        _listener = new TcpListener(IPAddress.Loopback, port);
        _listener.Start();
        _run = AcceptAsync();
    }

    public Func<string, string?> Respond { get; set; }

    public string Place => $"127.0.0.1:{((IPEndPoint)_listener.LocalEndpoint).Port}";

    public async ValueTask DisposeAsync()
    {
        await _stop.CancelAsync();
        _listener.Stop();
        await _run;
        _stop.Dispose();
    }

    /// <summary>The bytes of a client; another layer over them for who wants one.</summary>
    protected virtual Task<Stream> WrapAsync(Stream client, CancellationToken stop) => Task.FromResult(client);

    /// <summary>Serves one client until it returns.</summary>
    protected abstract Task ServeAsync(StreamReader questions, Stream answers, CancellationToken stop);

    private async Task AcceptAsync()
    {
        List<Task> serving = [];
        try
        {
            while (true)
            {
                serving.Add(ServeAsync(await _listener.AcceptTcpClientAsync(_stop.Token)));
            }
        }
        catch (Exception e) when (e is OperationCanceledException or SocketException or ObjectDisposedException)
        {
            await Task.WhenAll(serving);
        }
    }

    private async Task ServeAsync(TcpClient client)
    {
        using TcpClient _ = client;
        try
        {
            Stream stream = await WrapAsync(client.GetStream(), _stop.Token);
            using StreamReader reader = new(stream, Encoding.ASCII);
            await ServeAsync(reader, stream, _stop.Token);
        }
        catch (Exception e) when (e is IOException or OperationCanceledException or SocketException or System.Security.Authentication.AuthenticationException)
        {
            // The feed closed the connection, or the test is over.
        }
    }
}
