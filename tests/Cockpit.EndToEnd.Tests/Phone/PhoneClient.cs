using System.Net.Security;
using System.Net.WebSockets;
using System.Text;
using System.Text.Json;

namespace Cockpit.EndToEnd.Tests.Phone;

/// <summary>A page that speaks by itself: a bare socket that says what the page says.</summary>
internal sealed class PhoneClient : IAsyncDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(10);
    private readonly ClientWebSocket _socket = new();
    private readonly byte[] _buffer = new byte[8192];

    public string Key { get; private set; } = "";

    public string Satellite { get; private set; } = "";

    public WebSocketCloseStatus? ClosedWith => _socket.CloseStatus;

    /// <summary>Connects, and says hello.</summary>
    public static async Task<PhoneClient> HelloAsync(Uri page, string key = "")
    {
        PhoneClient client = await ConnectAsync(page);
        await client.SayAsync($$"""{"t":"hello","key":"{{key}}"}""");
        if (await client.HearAsync() is { } paired && paired.GetProperty("t").GetString() == "paired")
        {
            client.Key = paired.GetProperty("key").GetString() ?? "";
            client.Satellite = paired.GetProperty("name").GetString() ?? "";
        }

        return client;
    }

    public static async Task<PhoneClient> ConnectAsync(Uri page, string? origin = null)
    {
        PhoneClient client = new();
        client._socket.Options.RemoteCertificateValidationCallback = Trusts;
        client._socket.Options.SetRequestHeader("Origin", origin ?? $"https://{page.Authority}");
        UriBuilder link = new(page) { Scheme = "wss", Path = page.AbsolutePath + "link" };
        using CancellationTokenSource limit = new(Patience);
        await client._socket.ConnectAsync(link.Uri, limit.Token);
        return client;
    }

    /// <summary>The name in the certificate counts, who signed it does not: nobody has.</summary>
    public static bool Trusts(object sender, System.Security.Cryptography.X509Certificates.X509Certificate? certificate, System.Security.Cryptography.X509Certificates.X509Chain? chain, SslPolicyErrors errors) =>
        (errors & ~SslPolicyErrors.RemoteCertificateChainErrors) == SslPolicyErrors.None;

    public async Task SayAsync(string json)
    {
        using CancellationTokenSource limit = new(Patience);
        await _socket.SendAsync(Encoding.UTF8.GetBytes(json), WebSocketMessageType.Text, endOfMessage: true, limit.Token);
    }

    /// <summary>The next message; null when the program has closed the connection.</summary>
    public async Task<JsonElement?> HearAsync()
    {
        using CancellationTokenSource limit = new(Patience);
        int length = 0;
        ValueWebSocketReceiveResult part;
        do
        {
            part = await _socket.ReceiveAsync(_buffer.AsMemory(length), limit.Token);
            length += part.Count;
        }
        while (!part.EndOfMessage);
        return part.MessageType == WebSocketMessageType.Close ? null : JsonDocument.Parse(_buffer.AsMemory(0, length)).RootElement.Clone();
    }

    /// <summary>Listens until the program closes, and gives the code.</summary>
    public async Task<int> ClosedAsync()
    {
        while (_socket.CloseStatus is null && await HearAsync() is not null)
        {
        }

        return _socket.CloseStatus is { } code ? (int)code : 0;
    }

    public ValueTask DisposeAsync()
    {
        _socket.Dispose();
        return ValueTask.CompletedTask;
    }
}
