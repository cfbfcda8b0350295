using System.Collections.Concurrent;
using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace Cockpit.EndToEnd.Tests.Browser;

/// <summary>A page in the browser: its size and colours are chosen, what it asks for and complains of is kept.</summary>
internal sealed class BrowserPage(Chromium browser, string session, string target) : IAsyncDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(30);
    private readonly ConcurrentQueue<string> _requests = new();
    private readonly ConcurrentQueue<string> _complaints = new();
    private readonly ConcurrentQueue<PageFrame> _frames = new();
    private TaskCompletionSource _loaded = new(TaskCreationOptions.RunContinuationsAsynchronously);

    /// <summary>Every address that was asked for since the last <see cref="GoAsync"/> began.</summary>
    public IReadOnlyCollection<string> Requests => _requests;

    /// <summary>Errors and warnings of the console, and whatever the browser itself complained of, since then.</summary>
    public IReadOnlyCollection<string> Complaints => _complaints;

    /// <summary>Every text that came or went over a WebSocket of the page, in order.</summary>
    public IReadOnlyCollection<PageFrame> Frames => _frames;

    /// <summary>Chooses size and colours.</summary>
    /// <param name="width">Pixels.</param>
    /// <param name="height">Pixels.</param>
    /// <param name="dark">Whether the user prefers dark pages.</param>
    /// <param name="printed">Whether it is laid out as for print.</param>
    public async Task LookAsync(int width, int height, bool dark, bool printed = false)
    {
        await SendAsync("Emulation.setDeviceMetricsOverride", new JsonObject { ["width"] = width, ["height"] = height, ["deviceScaleFactor"] = 1, ["mobile"] = width < 500 });
        await SendAsync("Emulation.setEmulatedMedia", new JsonObject
        {
            ["media"] = printed ? "print" : "screen",
            ["features"] = new JsonArray(new JsonObject { ["name"] = "prefers-color-scheme", ["value"] = dark ? "dark" : "light" }),
        });
    }

    /// <summary>Goes to an address and waits until all of it is there.</summary>
    public async Task GoAsync(Uri address)
    {
        _loaded = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
        _requests.Clear();
        _complaints.Clear();
        await SendAsync("Page.navigate", new JsonObject { ["url"] = address.AbsoluteUri });
        await _loaded.Task.WaitAsync(Patience);
    }

    /// <summary>Forgets what was asked for and complained of.</summary>
    public void Forget()
    {
        _requests.Clear();
        _complaints.Clear();
    }

    /// <summary>Brings the page in front, so that others are hidden.</summary>
    public async Task ShowAsync() => await browser.SendAsync(null, "Target.activateTarget", new JsonObject { ["targetId"] = target });

    /// <summary>Lets the page work something out.</summary>
    /// <param name="expression">JavaScript; a promise is waited for.</param>
    /// <returns>Its value.</returns>
    public async Task<JsonElement> EvaluateAsync(string expression)
    {
        JsonElement answer = await SendAsync("Runtime.evaluate", new JsonObject { ["expression"] = expression, ["returnByValue"] = true, ["awaitPromise"] = true });
        return answer.TryGetProperty("exceptionDetails", out JsonElement failure)
            ? throw new InvalidOperationException($"the page failed: {failure}")
            : answer.GetProperty("result").TryGetProperty("value", out JsonElement value) ? value : default;
    }

    /// <summary>Clicks in the middle of an element.</summary>
    /// <param name="selector">Names it as style sheets do.</param>
    public async Task ClickAsync(string selector)
    {
        JsonElement at = await EvaluateAsync($"(()=>{{const e=document.querySelector({JsonSerializer.Serialize(selector)});e.scrollIntoView();const r=e.getBoundingClientRect();return [r.x+r.width/2,r.y+r.height/2]}})()");
        foreach (string kind in (string[])["mousePressed", "mouseReleased"])
        {
            await SendAsync("Input.dispatchMouseEvent", new JsonObject { ["type"] = kind, ["x"] = at[0].GetDouble(), ["y"] = at[1].GetDouble(), ["button"] = "left", ["clickCount"] = 1 });
        }
    }

    /// <summary>The whole page as PNG.</summary>
    public async Task<byte[]> PictureAsync()
    {
        JsonElement picture = await SendAsync("Page.captureScreenshot", new JsonObject { ["format"] = "png", ["captureBeyondViewport"] = true });
        return picture.GetProperty("data").GetBytesFromBase64();
    }

    /// <summary>The page as it comes out of a printer.</summary>
    /// <param name="width">Of the paper, inches.</param>
    /// <param name="height">Of the paper, inches.</param>
    /// <returns>A PDF.</returns>
    public async Task<byte[]> PrintAsync(double width, double height)
    {
        // What was chosen for the screen would hold for the paper too.
        await SendAsync("Emulation.setEmulatedMedia", new JsonObject { ["media"] = "", ["features"] = new JsonArray() });
        await SendAsync("Emulation.clearDeviceMetricsOverride", []);
        JsonElement printed = await SendAsync("Page.printToPDF", new JsonObject { ["paperWidth"] = width, ["paperHeight"] = height, ["printBackground"] = true, ["preferCSSPageSize"] = false });
        return printed.GetProperty("data").GetBytesFromBase64();
    }

    public async ValueTask DisposeAsync() => await browser.SendAsync(null, "Target.closeTarget", new JsonObject { ["targetId"] = target });

    /// <summary>Begins to listen.</summary>
    internal async Task BeginAsync()
    {
        foreach (string domain in (string[])["Page", "Runtime", "Log", "Network"])
        {
            await SendAsync(domain + ".enable", []);
        }
    }

    /// <summary>Takes what the browser tells about the page.</summary>
    internal void Hear(string method, JsonElement told)
    {
        switch (method)
        {
            case "Page.loadEventFired":
                _loaded.TrySetResult();
                break;
            case "Network.webSocketFrameReceived" or "Network.webSocketFrameSent":
                _frames.Enqueue(new PageFrame(method.EndsWith("Sent", StringComparison.Ordinal), told.GetProperty("timestamp").GetDouble(), told.GetProperty("response").GetProperty("payloadData").GetString()!));
                break;
            case "Network.requestWillBeSent":
                _requests.Enqueue(told.GetProperty("request").GetProperty("url").GetString()!);
                break;
            case "Runtime.exceptionThrown":
                _complaints.Enqueue(told.GetProperty("exceptionDetails").ToString());
                break;
            case "Runtime.consoleAPICalled" when told.GetProperty("type").GetString() is "error" or "warning" or "assert":
                _complaints.Enqueue(told.GetProperty("args").ToString());
                break;
            case "Log.entryAdded" when told.GetProperty("entry").GetProperty("level").GetString() is "error" or "warning":
                _complaints.Enqueue(string.Create(CultureInfo.InvariantCulture, $"{told.GetProperty("entry").GetProperty("text")}"));
                break;
            default:
                break;
        }
    }

    /// <summary>Asks the browser for something about this page, and waits for the answer.</summary>
    public Task<JsonElement> SendAsync(string method, JsonObject parameters) => browser.SendAsync(session, method, parameters);
}

/// <summary>One text over a WebSocket of a page.</summary>
/// <param name="Sent">It went out; false = it came in.</param>
/// <param name="At">When, seconds of the browser's own clock.</param>
/// <param name="Text">The text.</param>
internal readonly record struct PageFrame(bool Sent, double At, string Text);
