using System.Collections.Concurrent;
using System.Net;
using System.Net.Sockets;
using System.Text;

namespace Cockpit.EndToEnd.Tests.Feeds;

/// <summary>A rig server in this process that answers as a test wants; a null answer never comes, an empty one closes the connection.</summary>
internal sealed class RigServer : IAsyncDisposable
{
    private readonly TcpListener _listener = new(IPAddress.Loopback, 0);
    private readonly CancellationTokenSource _stop = new();
    private readonly Task _run;

    public RigServer(Func<string, string?> respond)
    {
        Respond = respond;
        _listener.Start();
        _run = AcceptAsync();
    }

    public Func<string, string?> Respond { get; set; }

    /// <summary>All commands, in order.</summary>
    public ConcurrentQueue<string> Commands { get; } = new();

    public string Place => $"127.0.0.1:{((IPEndPoint)_listener.LocalEndpoint).Port}";

    public async ValueTask DisposeAsync()
    {
        await _stop.CancelAsync();
        _listener.Stop();
        await _run;
        _stop.Dispose();
    }

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
            using StreamReader reader = new(client.GetStream(), Encoding.ASCII);
            while (await reader.ReadLineAsync(_stop.Token) is { } command)
            {
                Commands.Enqueue(command);
                string? answer = Respond(command);
                if (answer is { Length: 0 })
                {
                    return;
                }

                await client.GetStream().WriteAsync(Encoding.ASCII.GetBytes(answer ?? ""), _stop.Token);
            }
        }
        catch (Exception e) when (e is IOException or OperationCanceledException or SocketException)
        {
            // The feed closed the connection, or the test is over.
        }
    }
}
