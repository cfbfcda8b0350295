using System.Net;
using System.Net.Sockets;
using System.Text;

namespace Cockpit.Tests.Downloads;

/// <summary>A web server on loopback that answers every question with what a test wants, byte by byte.</summary>
internal sealed class TestServer : IAsyncDisposable
{
    private readonly TcpListener _listener = new(IPAddress.Loopback, 0);
    private readonly CancellationTokenSource _ends = new();
    private readonly Task _serving;

    public TestServer()
    {
        _listener.Start();
        _serving = ServeAsync();
    }

    public Uri Address => new($"http://127.0.0.1:{((IPEndPoint)_listener.LocalEndpoint).Port}/elements.txt");

    /// <summary>The head of each question, in order.</summary>
    public List<string> Questions { get; } = [];

    /// <summary>What is sent back.</summary>
    public byte[] Answer { get; set; } = [];

    /// <summary>After the answer the connection stays open, and nothing more comes.</summary>
    public bool Hangs { get; set; }

    public static byte[] Page(string body, string more = "", int status = 200, int? length = null) =>
        Encoding.UTF8.GetBytes($"HTTP/1.1 {status} Words\r\nContent-Length: {length ?? Encoding.UTF8.GetByteCount(body)}\r\nConnection: close\r\n{more}\r\n{body}");

    public async ValueTask DisposeAsync()
    {
        await _ends.CancelAsync();
        _listener.Stop();
        await _serving.ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        _ends.Dispose();
    }

    private async Task ServeAsync()
    {
        while (!_ends.IsCancellationRequested)
        {
            using TcpClient client = await _listener.AcceptTcpClientAsync(_ends.Token);
            NetworkStream stream = client.GetStream();
            StringBuilder head = new();
            byte[] buffer = new byte[4096];
            while (!head.ToString().Contains("\r\n\r\n", StringComparison.Ordinal))
            {
                head.Append(Encoding.ASCII.GetString(buffer, 0, await stream.ReadAsync(buffer, _ends.Token)));
            }

            Questions.Add(head.ToString());
            await stream.WriteAsync(Answer, _ends.Token);
            if (Hangs)
            {
                await Task.Delay(Timeout.InfiniteTimeSpan, _ends.Token);
            }
        }
    }
}
