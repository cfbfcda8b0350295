using System.Net;
using System.Net.Sockets;
using System.Security.Cryptography.X509Certificates;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Server.Kestrel.Core;
using Microsoft.AspNetCore.Server.Kestrel.Https;
using Microsoft.AspNetCore.Server.Kestrel.Transport.Sockets;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;

namespace Cockpit.Devices.Phone;

/// <summary>The web server with its limits: HTTP/1.1 over TLS at one address, nothing read from the environment, no log, signals left alone.</summary>
internal static class PhoneHost
{
    private const int MostConnections = 32;
    private const int MostSockets = 8;
    private const int LongestRequestLine = 512;
    private const int LongestHeaders = 8192;

    /// <summary>Connections that wait to be taken.</summary>
    public const int Backlog = 16;

    private static readonly TimeSpan HandshakePatience = TimeSpan.FromSeconds(3);
    private static readonly TimeSpan HeadersPatience = TimeSpan.FromSeconds(5);
    private static readonly TimeSpan KeepAlive = TimeSpan.FromSeconds(15);

    /// <summary>Builds it; nothing is answered yet.</summary>
    /// <param name="socket">Bound; owned by the server once it has begun.</param>
    /// <param name="certificate">Who we are.</param>
    /// <param name="setting">What the connections share.</param>
    public static WebApplication Build(Socket socket, X509Certificate2 certificate, PhoneSetting setting)
    {
        WebApplicationBuilder builder = WebApplication.CreateEmptyBuilder(new WebApplicationOptions());
        builder.Services.AddSingleton<IHostLifetime, NoLifetime>();
        builder.Services.Configure<SocketTransportOptions>(transport =>
        {
            transport.NoDelay = true;
            transport.Backlog = Backlog;
            transport.CreateBoundListenSocket = _ => socket;
        });
        builder.WebHost.UseKestrelCore().ConfigureKestrel(options => Limit(options, (IPEndPoint)socket.LocalEndPoint!, certificate));
        WebApplication host = builder.Build();

        // The page speaks four times a second and is judged by that, so no pings are needed.
        host.UseWebSockets(new WebSocketOptions { KeepAliveInterval = Timeout.InfiniteTimeSpan });
        host.Run(new PhoneRequests(setting).AnswerAsync);
        return host;
    }

    private static void Limit(KestrelServerOptions options, IPEndPoint place, X509Certificate2 certificate)
    {
        options.AddServerHeader = false;
        options.Limits.MaxConcurrentConnections = MostConnections;
        options.Limits.MaxConcurrentUpgradedConnections = MostSockets;
        options.Limits.MaxRequestLineSize = LongestRequestLine;
        options.Limits.MaxRequestHeadersTotalSize = LongestHeaders;
        options.Limits.MaxRequestBufferSize = LongestHeaders + PhonePost.LongestBody;
        options.Limits.MaxRequestBodySize = PhonePost.LongestBody;
        options.Limits.RequestHeadersTimeout = HeadersPatience;
        options.Limits.KeepAliveTimeout = KeepAlive;
        options.Listen(place, listen =>
        {
            listen.Protocols = HttpProtocols.Http1;
            listen.UseHttps(new HttpsConnectionAdapterOptions { ServerCertificate = certificate, HandshakeTimeout = HandshakePatience });
        });
    }

    /// <summary>The program decides when it ends, not a host.</summary>
    private sealed class NoLifetime : IHostLifetime
    {
        public Task WaitForStartAsync(CancellationToken cancellationToken) => Task.CompletedTask;

        public Task StopAsync(CancellationToken cancellationToken) => Task.CompletedTask;
    }
}
