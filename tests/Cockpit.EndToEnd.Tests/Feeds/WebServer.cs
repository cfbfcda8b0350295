using System.Net;
using System.Net.Security;
using System.Net.Sockets;
using System.Security.Cryptography.X509Certificates;
using System.Text;

namespace Cockpit.EndToEnd.Tests.Feeds;

/// <summary>A web server on the loopback address: one answer to each question; a null answer never comes.</summary>
internal sealed class WebServer : LoopbackServer
{
    private readonly X509Certificate2? _certificate;

    private WebServer(int port, Func<string, string?> respond, X509Certificate2? certificate)
        : base(respond, port) => _certificate = certificate;

    public string Url => $"{(_certificate is null ? "http" : "https")}://{Place}/now";

    public static WebServer Start(Func<string, string?> respond, int port = 0) => new(port, respond, null);

    /// <summary>A server behind TLS.</summary>
    public static WebServer StartSecure(Func<string, string?> respond, X509Certificate2 certificate) => new(0, respond, certificate);

    public static string Answer(string status, string body, string more = "") => $"HTTP/1.1 {status}\r\nContent-Length: {Encoding.UTF8.GetByteCount(body)}\r\n{more}\r\n{body}";

    public static int FreePort()
    {
        using TcpListener probe = new(IPAddress.Loopback, 0);
        probe.Start();
        return ((IPEndPoint)probe.LocalEndpoint).Port;
    }

    protected override async Task<Stream> WrapAsync(Stream client, CancellationToken stop)
    {
        if (_certificate is null)
        {
            return client;
        }

        SslStream secure = new(client);
        await secure.AuthenticateAsServerAsync(new SslServerAuthenticationOptions { ServerCertificate = _certificate }, stop);
        return secure;
    }

    protected override async Task ServeAsync(StreamReader questions, Stream answers, CancellationToken stop)
    {
        StringBuilder question = new();
        while (await questions.ReadLineAsync(stop) is { } line)
        {
            question.Append(line).Append("\r\n");
            if (line.Length > 0)
            {
                continue;
            }

            if (Respond(question.ToString()) is not { } answer)
            {
                await Task.Delay(Timeout.InfiniteTimeSpan, stop);
                return;
            }

            await answers.WriteAsync(Encoding.UTF8.GetBytes(answer), stop);
            if (answer.StartsWith("rubbish", StringComparison.Ordinal) || answer.EndsWith("\r\n\r\nlevel=1", StringComparison.Ordinal))
            {
                return;
            }

            question.Clear();
        }
    }
}
