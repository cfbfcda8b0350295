using System.Collections.Concurrent;
using System.Diagnostics;
using System.Net.WebSockets;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace Cockpit.EndToEnd.Tests.Browser;

/// <summary>A browser without a window, driven over a WebSocket on loopback by the Chrome DevTools Protocol; ends with all that it started.</summary>
internal sealed class Chromium : IAsyncDisposable
{
    private const string Listening = "DevTools listening on ";
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(30);

    private readonly Process _process;
    private readonly DirectoryInfo _profile;
    private readonly ClientWebSocket _socket = new();
    private readonly SemaphoreSlim _sending = new(1, 1);
    private readonly ConcurrentDictionary<int, TaskCompletionSource<JsonElement>> _waiting = new();
    private readonly ConcurrentDictionary<string, Action<string, JsonElement>> _listeners = new();
    private readonly CancellationTokenSource _end = new();
    private Task _reading = Task.CompletedTask;
    private int _last;

    private Chromium(Process process, DirectoryInfo profile) => (_process, _profile) = (process, profile);

    /// <summary>Starts it with a profile of its own. It runs without its sandbox, since tests may run as root, and opens nothing but what they name.</summary>
    public static async Task<Chromium> StartAsync()
    {
        DirectoryInfo profile = Directory.CreateTempSubdirectory("cockpit-browser-");
        var start = new ProcessStartInfo(
            Program.Peers.Browser,
            [
                "--headless", "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage", "--hide-scrollbars", "--no-first-run", "--disable-background-networking",
                "--disable-component-update", "--disable-sync", "--disable-extensions", "--remote-debugging-port=0", $"--user-data-dir={profile.FullName}", "about:blank",
            ])
        {
            UseShellExecute = false, RedirectStandardError = true, RedirectStandardOutput = true,
        };
        Process process = Process.Start(start) ?? throw new InvalidOperationException("the browser did not start");
        var browser = new Chromium(process, profile);
        try
        {
            await browser.ConnectAsync();
            return browser;
        }
        catch
        {
            await browser.DisposeAsync();
            throw;
        }
    }

    /// <summary>Opens an empty page.</summary>
    public async Task<BrowserPage> OpenAsync()
    {
        string target = (await SendAsync(null, "Target.createTarget", new JsonObject { ["url"] = "about:blank" })).GetProperty("targetId").GetString()!;
        string session = (await SendAsync(null, "Target.attachToTarget", new JsonObject { ["targetId"] = target, ["flatten"] = true })).GetProperty("sessionId").GetString()!;
        var page = new BrowserPage(this, session, target);
        _listeners[session] = page.Hear;
        await page.BeginAsync();
        return page;
    }

    /// <summary>Asks the browser for something, and waits for the answer.</summary>
    /// <param name="session">Of the page; null for the browser itself.</param>
    /// <param name="method">A method of the protocol.</param>
    /// <param name="parameters">Its parameters.</param>
    public async Task<JsonElement> SendAsync(string? session, string method, JsonObject? parameters = null)
    {
        int number = Interlocked.Increment(ref _last);
        var answer = new TaskCompletionSource<JsonElement>(TaskCreationOptions.RunContinuationsAsynchronously);
        _waiting[number] = answer;
        var message = new JsonObject { ["id"] = number, ["method"] = method, ["params"] = parameters ?? [] };
        if (session is not null)
        {
            message["sessionId"] = session;
        }

        await _sending.WaitAsync(_end.Token);
        try
        {
            await _socket.SendAsync(JsonSerializer.SerializeToUtf8Bytes(message), WebSocketMessageType.Text, endOfMessage: true, _end.Token);
        }
        finally
        {
            _sending.Release();
        }

        return await answer.Task.WaitAsync(Patience, _end.Token);
    }

    public async ValueTask DisposeAsync()
    {
        await _end.CancelAsync();
        _socket.Abort();
        await _reading;
        _process.Kill(entireProcessTree: true);
        await _process.WaitForExitAsync(CancellationToken.None);
        _process.Dispose();
        _socket.Dispose();
        _sending.Dispose();
        _end.Dispose();
        for (int attempt = 0; _profile.Exists && attempt < 20; attempt++)
        {
            try
            {
                _profile.Delete(recursive: true);
            }
            catch (IOException)
            {
                await Task.Delay(50, CancellationToken.None); // a child of the browser writes its last
            }

            _profile.Refresh();
        }
    }

    private async Task ConnectAsync()
    {
        var address = new TaskCompletionSource<string>(TaskCreationOptions.RunContinuationsAsynchronously);
        _process.OutputDataReceived += (_, _) => { };
        _process.ErrorDataReceived += (_, told) =>
        {
            if (told.Data is null)
            {
                address.TrySetException(new InvalidOperationException("the browser ended before it listened"));
            }
            else if (told.Data.StartsWith(Listening, StringComparison.Ordinal))
            {
                address.TrySetResult(told.Data[Listening.Length..]);
            }
        };
        _process.BeginOutputReadLine();
        _process.BeginErrorReadLine();
        await _socket.ConnectAsync(new Uri(await address.Task.WaitAsync(Patience)), _end.Token);
        _reading = ReadAsync();
    }

    private async Task ReadAsync()
    {
        byte[] chunk = new byte[64 * 1024];
        using var message = new MemoryStream();
        try
        {
            while (!_end.IsCancellationRequested)
            {
                ValueWebSocketReceiveResult part = await _socket.ReceiveAsync(chunk.AsMemory(), _end.Token);
                await message.WriteAsync(chunk.AsMemory(0, part.Count), _end.Token);
                if (part.EndOfMessage)
                {
                    Take(JsonDocument.Parse(message.ToArray()).RootElement);
                    message.SetLength(0);
                }
            }
        }
        catch (Exception e) when (e is OperationCanceledException or WebSocketException or JsonException)
        {
            foreach (TaskCompletionSource<JsonElement> waiting in _waiting.Values)
            {
                waiting.TrySetException(new InvalidOperationException($"the browser is gone: {e.Message}"));
            }
        }
    }

    private void Take(JsonElement message)
    {
        if (message.TryGetProperty("id", out JsonElement id) && _waiting.TryRemove(id.GetInt32(), out TaskCompletionSource<JsonElement>? waiting))
        {
            if (message.TryGetProperty("error", out JsonElement error))
            {
                waiting.TrySetException(new InvalidOperationException($"the browser refused: {error}"));
            }
            else
            {
                waiting.TrySetResult(message.GetProperty("result"));
            }
        }
        else if (message.TryGetProperty("sessionId", out JsonElement session) && _listeners.TryGetValue(session.GetString()!, out Action<string, JsonElement>? listener))
        {
            listener(message.GetProperty("method").GetString()!, message.GetProperty("params"));
        }
    }
}
