using System.Net.Sockets;
using Cockpit.Core.Formats.Options;
using Cockpit.Core.Time;
using Cockpit.Session.Bus;
using Cockpit.Session.Events;

namespace Cockpit.Devices.Clocks;

/// <summary>Compares this computer's clock with a time server: four questions, then the same again every ten minutes. Sets no clock.</summary>
/// <remarks>Of four answers the one that was least under way counts (RFC 5905, section 10: the clock filter). No answer is told once, and asked on.</remarks>
public sealed class ServerClock : IAsyncDisposable
{
    private const int Questions = 4;
    private static readonly TimeSpan Between = TimeSpan.FromSeconds(2);
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(1);
    private static readonly TimeSpan Again = TimeSpan.FromMinutes(10);

    private readonly CancellationTokenSource _stop = new();
    private readonly TimeServerText _server;
    private readonly Task _run;

    /// <summary>Begins to ask.</summary>
    /// <param name="server">Whom.</param>
    /// <param name="sink">Where the comparison goes.</param>
    /// <param name="time">The clock that is compared, and what waiting goes by.</param>
    public ServerClock(TimeServerText server, IEventSink sink, TimeProvider time)
    {
        _server = server;
        _run = Task.Run(() => RunAsync(sink, time, _stop.Token));
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        await _stop.CancelAsync();
        await _run;
        _stop.Dispose();
    }

    private async Task RunAsync(IEventSink sink, TimeProvider time, CancellationToken stop)
    {
        string? told = null;
        while (!stop.IsCancellationRequested)
        {
            (SntpAnswer? best, string? trouble) = await AskAllAsync(time, stop);
            if (stop.IsCancellationRequested)
            {
                return;
            }

            if (best is { } answer)
            {
                told = null;
                sink.Publish(Sources.Clock, new ClockCompared(_server.ToString(), answer.Behind, answer.Doubt, null));
            }
            else if (!string.Equals(told, trouble, StringComparison.Ordinal))
            {
                told = trouble;
                sink.Publish(Sources.Clock, new ClockCompared(_server.ToString(), null, TimeSpan.Zero, trouble));
            }

            await Task.Delay(Again, time, stop).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        }
    }

    private async Task<(SntpAnswer? Best, string? Trouble)> AskAllAsync(TimeProvider time, CancellationToken stop)
    {
        SntpAnswer? best = null;
        string? trouble = null;
        for (int question = 0; question < Questions && !stop.IsCancellationRequested; question++)
        {
            (SntpAnswer? answer, string? why) = await AskAsync(time, stop);
            trouble = why ?? trouble;
            if (answer is { } one && (best is null || one.Delay < best.Value.Delay))
            {
                best = one;
            }

            await Task.Delay(Between, time, stop).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        }

        return (best, trouble);
    }

    private async Task<(SntpAnswer? Answer, string? Trouble)> AskAsync(TimeProvider time, CancellationToken stop)
    {
        try
        {
            // Connected, so that only this server is heard.
            using UdpClient socket = new();
            socket.Connect(_server.Host, _server.Port);
            byte[] question = new byte[SntpMessage.Length];

            // Nobody must guess it who does not hear it. The second half of a new Guid is 62 bits of the system's own randomness (RFC 9562, 5.4), without OpenSSL.
            ulong mark = BitConverter.ToUInt64(Guid.NewGuid().ToByteArray(), sizeof(ulong));
            SntpMessage.Ask(question, mark);
            DateTimeOffset asked = time.GetUtcNow();
            long from = time.GetTimestamp();
            await socket.SendAsync(question, stop);
            using CancellationTokenSource patience = CancellationTokenSource.CreateLinkedTokenSource(stop);
            patience.CancelAfter(Patience);
            UdpReceiveResult answer = await socket.ReceiveAsync(patience.Token);
            return (SntpMessage.Read(answer.Buffer, mark, asked, time.GetElapsedTime(from), out string? trouble), trouble);
        }
        catch (OperationCanceledException)
        {
            return (null, "the time server does not answer");
        }
        catch (SocketException failure)
        {
            return (null, $"the time server cannot be reached: {failure.Message.TrimEnd('.')}");
        }
    }
}
