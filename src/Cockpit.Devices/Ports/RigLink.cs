using System.Globalization;
using System.Net.Sockets;
using System.Text;

namespace Cockpit.Devices.Ports;

/// <summary>What a rig server answered.</summary>
/// <param name="Code">Zero for done; else the error as Hamlib numbers it, negative.</param>
/// <param name="Value">The value asked for; empty where there is none.</param>
public readonly record struct RigReply(int Code, string Value)
{
    /// <summary>Whether the rig cannot do that at all: not implemented, not available.</summary>
    public bool IsUnknown => Code is -4 or -11;
}

/// <summary>One connection in the Hamlib network protocol: one command at a time, each in its long, extended form, whose answer has an end.</summary>
/// <remarks>
/// Source: rigctld(1) of Hamlib 4.5. A command that lacks an argument would take the next one for it, so the arguments are always complete; no
/// negative number is ever sent, because the server takes its sign for a separator. An answer that does not repeat the command, is longer than
/// <see cref="LongestReply"/>, or does not end within a second, ends the connection: what comes after it would belong to nobody.
/// </remarks>
public sealed class RigLink : IDisposable
{
    /// <summary>Longest answer that is read, bytes.</summary>
    public const int LongestReply = 4096;

    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(1);
    private static readonly TimeSpan ConnectPatience = TimeSpan.FromSeconds(5);

    private readonly TcpClient _client = new() { NoDelay = true };
    private readonly byte[] _buffer = new byte[LongestReply];
    private readonly string _host;
    private readonly int _port;
    private readonly TimeProvider _time;
    private int _length;
    private string _vfo = "";

    private RigLink(string host, int port, TimeProvider time)
    {
        _host = host;
        _port = port;
        _time = time;
    }

    private string Place => SocketWords.Place(_host, _port);

    /// <summary>Connects, and asks whether commands want the name of a VFO.</summary>
    /// <param name="where">The server.</param>
    /// <param name="asksForVfo">False for a server that was found to be silent when it is asked.</param>
    /// <param name="time">What waiting goes by.</param>
    /// <param name="stop">Ends it.</param>
    /// <exception cref="RigException">It could not be done.</exception>
    public static async Task<RigLink> ConnectAsync(RigAddress where, bool asksForVfo, TimeProvider time, CancellationToken stop)
    {
        RigLink link = new(where.Host, where.Port, time);
        try
        {
            await link.ConnectAsync(stop);
            if (asksForVfo)
            {
                string answer = await link.WithinAsync(link.AskForVfoAsync, silentVfo: true, stop);
                link._vfo = answer.EndsWith('1') && !answer.StartsWith("RPRT", StringComparison.Ordinal) ? "currVFO " : "";
            }

            return link;
        }
        catch
        {
            link.Dispose();
            throw;
        }
    }

    /// <summary>The level of the signal, dB over S9.</summary>
    /// <exception cref="RigException">There is no answer, or none that can be understood; the connection is of no more use.</exception>
    public Task<RigReply> AskLevelAsync(CancellationToken stop) => AskAsync("get_level", "STRENGTH", stop);

    /// <summary>The frequency that the receiver is tuned to, Hz.</summary>
    /// <exception cref="RigException">As above.</exception>
    public Task<RigReply> AskFrequencyAsync(CancellationToken stop) => AskAsync("get_freq", "", stop);

    /// <summary>Tunes.</summary>
    /// <param name="hertz">Positive.</param>
    /// <param name="stop">Ends it.</param>
    /// <exception cref="RigException">As above.</exception>
    public Task<RigReply> TuneAsync(long hertz, CancellationToken stop)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(hertz);
        return AskAsync("set_freq", hertz.ToString(CultureInfo.InvariantCulture), stop);
    }

    /// <inheritdoc/>
    public void Dispose() => _client.Dispose();

    private async Task ConnectAsync(CancellationToken stop)
    {
        using CancellationTokenSource patience = new(ConnectPatience, _time);
        using CancellationTokenSource either = CancellationTokenSource.CreateLinkedTokenSource(stop, patience.Token);
        try
        {
            await _client.ConnectAsync(_host, _port, either.Token);
        }
        catch (SocketException failure)
        {
            throw new RigException(SocketWords.OfConnection(failure, _host, _port), failure);
        }
        catch (OperationCanceledException) when (!stop.IsCancellationRequested)
        {
            throw new RigException($"{Place} does not answer");
        }
    }

    // This one answer has no end mark.
    private async Task<string> AskForVfoAsync(CancellationToken stop)
    {
        await SendAsync("\\chk_vfo\n", stop);
        return await LineAsync(stop);
    }

    private Task<RigReply> AskAsync(string word, string argument, CancellationToken stop) => WithinAsync(
        async patience =>
        {
            if (_length > 0 || _client.Available > 0)
            {
                throw new RigException($"{Place} says more than it was asked");
            }

            await SendAsync($"+\\{word} {_vfo}{argument}".TrimEnd() + "\n", patience);
            string first = await LineAsync(patience);
            return first.StartsWith(word + ":", StringComparison.Ordinal)
                ? await RestAsync(patience)
                : throw new RigException($"{Place} does not answer as a rig server does, in the extended form of the Hamlib network protocol");
        },
        silentVfo: false,
        stop);

    private async Task<RigReply> RestAsync(CancellationToken stop)
    {
        const string end = "RPRT ";
        string value = "";
        int left = LongestReply;
        while (left > 0)
        {
            string line = await LineAsync(stop);
            left -= line.Length + 1;
            if (line.StartsWith(end, StringComparison.Ordinal))
            {
                return int.TryParse(line.AsSpan(end.Length), NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out int code)
                    ? new RigReply(code, value)
                    : throw new RigException($"{Place} ends an answer without a number");
            }

            value = line[(line.LastIndexOf(':') + 1)..].Trim();
        }

        throw new RigException($"{Place} answers without an end");
    }

    private async Task<T> WithinAsync<T>(Func<CancellationToken, Task<T>> ask, bool silentVfo, CancellationToken stop)
    {
        using CancellationTokenSource patience = new(Patience, _time);
        using CancellationTokenSource either = CancellationTokenSource.CreateLinkedTokenSource(stop, patience.Token);
        try
        {
            return await ask(either.Token);
        }
        catch (OperationCanceledException) when (!stop.IsCancellationRequested)
        {
            throw new RigException(string.Create(CultureInfo.InvariantCulture, $"{Place} does not answer within {Patience.TotalSeconds:0} s")) { SilentVfo = silentVfo };
        }
        catch (SocketException failure)
        {
            throw new RigException(SocketWords.OfConnection(failure, _host, _port), failure);
        }
    }

    private async Task SendAsync(string command, CancellationToken stop) => await _client.Client.SendAsync(Encoding.ASCII.GetBytes(command), stop);

    private async Task<string> LineAsync(CancellationToken stop)
    {
        while (true)
        {
            int end = _buffer.AsSpan(0, _length).IndexOf((byte)'\n');
            if (end >= 0)
            {
                string line = Encoding.ASCII.GetString(_buffer, 0, end).TrimEnd('\r');
                _buffer.AsSpan((end + 1).._length).CopyTo(_buffer);
                _length -= end + 1;
                return line;
            }

            if (_length == _buffer.Length)
            {
                throw new RigException($"{Place} answers with a line that does not end");
            }

            int count = await _client.Client.ReceiveAsync(_buffer.AsMemory(_length), stop);
            _length += count > 0 ? count : throw new RigException($"{Place} closed the connection");
        }
    }
}

/// <summary>A rig server that did not answer as it must; the message is one sentence for people.</summary>
public sealed class RigException : IOException
{
    /// <summary>Makes it.</summary>
    public RigException(string message, Exception? inner = null)
        : base(message, inner)
    {
    }

    /// <summary>Whether it was silent when it was asked whether commands want the name of a VFO: it does not know that question.</summary>
    public bool SilentVfo { get; init; }
}
