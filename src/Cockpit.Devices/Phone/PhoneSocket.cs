using System.Net.WebSockets;

namespace Cockpit.Devices.Phone;

/// <summary>One socket.</summary>
/// <param name="socket">Accepted; not owned.</param>
/// <param name="setting">What the connections share.</param>
/// <param name="abort">Cuts the connection off.</param>
internal sealed class PhoneSocket(WebSocket socket, PhoneSetting setting, Action abort) : IPhoneLink, IAsyncDisposable
{
    /// <summary>Who says nothing for so long is cut off: hello at once, then at least four words a second unless the page is hidden.</summary>
    private static readonly TimeSpan HelloPatience = TimeSpan.FromSeconds(3);
    private static readonly TimeSpan SilentPatience = TimeSpan.FromMinutes(2);
    private static readonly TimeSpan ClosingPatience = TimeSpan.FromSeconds(1);

    private readonly CancellationTokenSource _end = CancellationTokenSource.CreateLinkedTokenSource(setting.Ending);
    private readonly CancellationTokenSource _silence = new();
    private readonly PhoneAllowance _allowance = new(setting.Time);
    private readonly byte[] _frame = new byte[PhoneMessageReader.LongestFrame + 1];
    private int _code = PhoneClosing.Going;
    private int _ends;

    /// <inheritdoc/>
    public void End(int code)
    {
        Interlocked.CompareExchange(ref _code, code, PhoneClosing.Going);
        if (Interlocked.Exchange(ref _ends, 1) == 0)
        {
            _ = EndAsync();
        }
    }

    /// <summary>Serves it until it ends.</summary>
    public async Task RunAsync(string token)
    {
        try
        {
            if (await HearAsync(HelloPatience) is PhoneMessage.Hello hello && setting.Desk.Greet(token, hello.Key) is { } key)
            {
                await SendAsync(GuidanceJson.Paired(key, setting.Guidance()?.Satellite ?? ""));
                await ServeAsync();
            }
            else
            {
                Interlocked.CompareExchange(ref _code, PhoneClosing.NotKnown, PhoneClosing.Going);
            }
        }
        catch (Exception ending) when (ending is OperationCanceledException or WebSocketException or IOException or ObjectDisposedException)
        {
            // However it ends, it is closed below with its code.
        }

        await CloseAsync();
    }

    public ValueTask DisposeAsync()
    {
        _end.Dispose();
        _silence.Dispose();
        return ValueTask.CompletedTask;
    }

    /// <remarks>A receive that is cancelled breaks the connection, and the code is lost with it: so the page is asked to close, and cut off where it does not.</remarks>
    private async Task EndAsync()
    {
        try
        {
            await _silence.CancelAsync();
            _end.CancelAfter(ClosingPatience);
            await socket.CloseOutputAsync((WebSocketCloseStatus)_code, null, _end.Token);
        }
        catch (Exception ended) when (ended is OperationCanceledException or WebSocketException or IOException or ObjectDisposedException)
        {
            // It had ended by itself, or is cut off by whoever listens.
        }
    }

    private async Task ServeAsync()
    {
        setting.Desk.Enter(this);
        Task speaking = GuidancePump.RunAsync(setting, bytes => SendAsync(bytes), _silence.Token);
        try
        {
            while (await HearAsync(SilentPatience) is { } message)
            {
                if (_allowance.Take())
                {
                    setting.Desk.Take(this, message);
                }
                else if (_allowance.IsFlood)
                {
                    End(PhoneClosing.Flood);
                }
            }
        }
        finally
        {
            setting.Desk.Leave(this);
            await _silence.CancelAsync();
            await speaking.ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        }
    }

    /// <summary>The next message; null when the other side closes, or says what no page says.</summary>
    private async Task<PhoneMessage?> HearAsync(TimeSpan patience)
    {
        using CancellationTokenSource limit = CancellationTokenSource.CreateLinkedTokenSource(_end.Token);
        limit.CancelAfter(patience);
        while (true)
        {
            int length = 0;
            ValueWebSocketReceiveResult part;
            do
            {
                part = await socket.ReceiveAsync(_frame.AsMemory(length), limit.Token);
                length += part.Count;
            }
            while (!part.EndOfMessage && length < _frame.Length);
            if (part.MessageType == WebSocketMessageType.Close)
            {
                return null;
            }

            if (length >= _frame.Length)
            {
                Interlocked.CompareExchange(ref _code, PhoneClosing.TooBig, PhoneClosing.Going);
                return null;
            }

            if (PhoneMessageReader.Read(_frame.AsMemory(0, length), out string? problem) is { } message)
            {
                return message;
            }

            // What is not understood counts like what is.
            setting.Desk.Refuse(problem ?? "");
            if (!_allowance.Take() && _allowance.IsFlood)
            {
                Interlocked.CompareExchange(ref _code, PhoneClosing.Flood, PhoneClosing.Going);
                return null;
            }
        }
    }

    private ValueTask SendAsync(byte[] bytes) => socket.SendAsync(bytes.AsMemory(), WebSocketMessageType.Text, endOfMessage: true, _end.Token);

    private async Task CloseAsync()
    {
        try
        {
            using CancellationTokenSource limit = new(ClosingPatience, TimeProvider.System);
            if (socket.State is WebSocketState.Open or WebSocketState.CloseReceived)
            {
                await socket.CloseOutputAsync((WebSocketCloseStatus)_code, null, limit.Token);
            }

            // What the other side still had on its way is taken, so that the code arrives in place of a broken connection.
            while (socket.State == WebSocketState.CloseSent && (await socket.ReceiveAsync(_frame.AsMemory(), limit.Token)).MessageType != WebSocketMessageType.Close)
            {
            }
        }
        catch (Exception failure) when (failure is OperationCanceledException or WebSocketException or IOException or ObjectDisposedException or ArgumentException)
        {
            abort();
        }
    }
}
