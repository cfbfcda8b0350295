using Cockpit.Core.Formats;

namespace Cockpit.Devices.Ports;

/// <summary>Bytes from a stream that this program was given, such as standard input; when it ends, it ends for good.</summary>
/// <remarks>Reads on a thread of its own, because a read of standard input cannot be interrupted on every system.</remarks>
/// <param name="stream">Where the bytes come from; the port closes it when it ends.</param>
/// <param name="name">What it is called, for people.</param>
/// <param name="refusal">Why it cannot be read at all, for <see cref="Open"/>; null when it can.</param>
public sealed class StreamPort(Stream stream, string name, string? refusal = null) : IPort
{
    private const int BufferBytes = 16 * 1024;

    /// <inheritdoc/>
    public string Where => name;

    /// <summary>Standard input; refused when it is the keyboard.</summary>
    public static StreamPort StandardInput() => Console.IsInputRedirected
        ? new StreamPort(Console.OpenStandardInput(), "standard input")
        : new StreamPort(Stream.Null, "standard input", "standard input is the keyboard; pipe the other program's lines into this one, or give another address");

    /// <inheritdoc/>
    /// <exception cref="PortException">It cannot be read at all.</exception>
    public void Open()
    {
        if (refusal is not null)
        {
            throw new PortException(refusal);
        }
    }

    /// <inheritdoc/>
    public async Task RunAsync(IPortListener listener, CancellationToken stop)
    {
        new Thread(() => Read(listener, stop)) { IsBackground = true, Name = name }.Start();
        await Task.Delay(Timeout.InfiniteTimeSpan, TimeProvider.System, stop);
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        // The stream belongs to the reading thread: closing it here would wait for a read that may never end.
    }

    private void Read(IPortListener listener, CancellationToken stop)
    {
        using Stream reading = stream;
        byte[] buffer = new byte[BufferBytes];
        string reason = $"{name} has ended";
        listener.Connected(name);
        try
        {
            while (reading.Read(buffer) is > 0 and int count && !stop.IsCancellationRequested)
            {
                listener.Received(buffer.AsSpan(0, count));
            }
        }
#pragma warning disable CA1031 // A thread of its own: what is not caught here would end the program in mid-pass.
        catch (Exception failure)
#pragma warning restore CA1031
        {
            reason = $"{name} failed ({(failure is IOException ? FileWords.Of(failure) : failure.Message)})";
        }

        if (!stop.IsCancellationRequested)
        {
            listener.Lost(reason + "; nothing more can come from it");
        }
    }
}
