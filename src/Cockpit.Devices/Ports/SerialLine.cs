using System.Globalization;
using System.IO.Ports;
using Cockpit.Core.Formats;

namespace Cockpit.Devices.Ports;

/// <summary>Bytes from a serial line, eight bits, no parity; it may be plugged in late, pulled out and plugged in again. Nothing is ever sent.</summary>
public sealed class SerialLine : IPort
{
    private const string Prefix = "serial:";
    private const string Option = "?baud=";
    private const int UsualSpeed = 9600;
    private const int LeastSpeed = 300;
    private const int MostSpeed = 4_000_000;
    private const int BufferBytes = 4096;

    private readonly string _device;
    private readonly int _speed;
    private readonly TimeProvider _time;

    private SerialLine(string device, int speed, TimeProvider time)
    {
        _device = device;
        _speed = speed;
        _time = time;
    }

    /// <inheritdoc/>
    public string Where => "serial line " + _device;

    /// <summary>Whether an address is one of a serial line.</summary>
    public static bool IsOne(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        return text.StartsWith(Prefix, StringComparison.Ordinal);
    }

    /// <summary>Makes the port of an address; nothing is opened yet.</summary>
    /// <param name="text"><c>serial:DEVICE[?baud=9600]</c>.</param>
    /// <param name="source">What the address belongs to, for the error.</param>
    /// <param name="time">What waiting goes by.</param>
    public static Parsed<SerialLine> Make(string text, string source, TimeProvider time)
    {
        string rest = text[Prefix.Length..];
        int query = rest.LastIndexOf('?');
        string device = query < 0 ? rest : rest[..query];
        int speed = UsualSpeed;
        if (query >= 0 && (!rest.AsSpan(query).StartsWith(Option, StringComparison.Ordinal)
            || !int.TryParse(rest.AsSpan(query + Option.Length), NumberStyles.None, CultureInfo.InvariantCulture, out speed) || speed is < LeastSpeed or > MostSpeed))
        {
            return new ParseError(source, 0, 0, $"{Quoted.Of(rest.AsSpan(query))} is no speed of a serial line; write ?baud=9600, or the number that its receiver has");
        }

        return device.Length == 0
            ? new ParseError(source, 0, 0, "serial: needs the name of the line, like serial:/dev/ttyUSB0 or serial:COM3")
            : new SerialLine(device, speed, time);
    }

    /// <inheritdoc/>
    public void Open()
    {
        // A line that is not there yet is no mistake: it may be plugged in later.
    }

    /// <inheritdoc/>
    public async Task RunAsync(IPortListener listener, CancellationToken stop)
    {
        BackOff backOff = new(_time);
        Complaint complaint = new(listener);
        while (true)
        {
            string reason = await ReadOnceAsync(complaint, listener, backOff, stop);
            stop.ThrowIfCancellationRequested();
            complaint.Lost(reason + "; it is tried again");
            await backOff.WaitAsync(stop);
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        // An open line lives inside RunAsync and ends with it.
    }

    private async Task<string> ReadOnceAsync(Complaint complaint, IPortListener listener, BackOff backOff, CancellationToken stop)
    {
        try
        {
            using SerialPort line = new(_device, _speed, Parity.None, 8, StopBits.One);
            line.Open();
            complaint.Connected(string.Create(CultureInfo.InvariantCulture, $"{Where}, {_speed} baud"), startsInside: true);
            byte[] buffer = new byte[BufferBytes];
            while (await line.BaseStream.ReadAsync(buffer, stop) is > 0 and int count)
            {
                backOff.Reset();
                listener.Received(buffer.AsSpan(0, count));
            }

            return $"{Where} was unplugged";
        }
        catch (Exception failure) when (failure is not OperationCanceledException && !OperatingSystem.IsWindows() && !File.Exists(_device))
        {
            // The library calls that a missing right.
            return $"there is no {Where}";
        }
        catch (UnauthorizedAccessException)
        {
            return $"{Where} may not be opened: another program has it, or this user has no right to it (on Debian the group dialout has)";
        }
        catch (Exception failure) when (failure is IOException or InvalidOperationException or ArgumentException or NotSupportedException)
        {
            return $"{Where} cannot be read ({FileWords.Of(failure)})";
        }
    }
}
