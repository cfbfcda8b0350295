using Cockpit.Core.Formats;
using Cockpit.Devices.Files;
using Microsoft.Win32.SafeHandles;

namespace Cockpit.Devices.Ports;

/// <summary>Bytes that another program appends to a file. A file that shrinks or is replaced is read anew from its start.</summary>
/// <remarks>
/// The length is asked for every 100 ms: notifications of change come late or never on network file systems. A file that is there when
/// the port starts is read from its end, because what it holds is past; one that comes later is read whole.
/// </remarks>
/// <param name="path">Path of the file; it need not be there yet.</param>
/// <param name="fromStart">Read also what a file holds that is there already.</param>
/// <param name="time">What waiting goes by.</param>
public sealed class FilePort(string path, bool fromStart, TimeProvider time) : IPort
{
    /// <summary>Time between two looks at the file.</summary>
    public static readonly TimeSpan Period = TimeSpan.FromMilliseconds(100);

    private const int BufferBytes = 64 * 1024;

    private readonly byte[] _buffer = new byte[BufferBytes];
    private SafeFileHandle? _file;
    private long _position;
    private bool _sought;

    /// <inheritdoc/>
    public string Where { get; } = "file " + path;

    /// <inheritdoc/>
    /// <exception cref="PortException">The path is no regular file: a folder, a device.</exception>
    public void Open()
    {
        try
        {
            if (Unfit() is { } found)
            {
                throw new PortException($"{path} is {found.KindInWords}; give the file that the other program writes");
            }
        }
        catch (IOException failure) when (failure is not PortException)
        {
            // What cannot be looked at now may be readable later; the first look says what is wrong with it.
        }
    }

    /// <inheritdoc/>
    public async Task RunAsync(IPortListener listener, CancellationToken stop)
    {
        Complaint complaint = new(listener);
        while (true)
        {
            try
            {
                await LookAsync(complaint, listener, stop);
            }
            catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
            {
                Dispose();
                _sought = true;
                complaint.Lost(failure is FileNotFoundException or DirectoryNotFoundException
                    ? $"there is no file {path}; it is waited for"
                    : $"{path} cannot be read ({FileWords.Of(failure)}); it is tried again");
            }

            await Task.Delay(Period, time, stop);
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        _file?.Dispose();
        _file = null;
    }

    private async Task LookAsync(Complaint complaint, IPortListener listener, CancellationToken stop)
    {
        // Opening a pipe would wait for whoever writes into it.
        if (Unfit() is { } found)
        {
            throw new IOException($"it is {found.KindInWords} now");
        }

        // The file under the name now, to be compared with the one that is held open.
        SafeFileHandle named = Reopen();
        long namedLength = RandomAccess.GetLength(named);
        if (_file is null)
        {
            Begin(named, namedLength, complaint);
        }
        else if (namedLength < _position || RandomAccess.GetLength(_file) < namedLength)
        {
            await ReadOnAsync(listener, stop);
            Dispose();
            Begin(named, 0, complaint);
        }
        else
        {
            named.Dispose();
        }

        await ReadOnAsync(listener, stop);
    }

    private FileStatus? Unfit() => FileStatus.Of(path, follow: true) is { Kind: not FileKind.Regular } found ? found : null;

    private void Begin(SafeFileHandle file, long length, Complaint complaint)
    {
        _file = file;
        _position = _sought || fromStart ? 0 : length;
        _sought = true;
        complaint.Connected(Where, startsInside: _position > 0 && !EndsLine(file, _position));
    }

    private async Task ReadOnAsync(IPortListener listener, CancellationToken stop)
    {
        // Each block is read by the pool in turn with everything else, so that a big file keeps nothing waiting.
        while (_file is { } file && await RandomAccess.ReadAsync(file, _buffer.AsMemory(), _position, stop) is > 0 and int count)
        {
            _position += count;
            listener.Received(_buffer.AsSpan(0, count));
        }
    }

    private SafeFileHandle Reopen() => File.OpenHandle(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete);

    private static bool EndsLine(SafeFileHandle file, long position)
    {
        Span<byte> last = stackalloc byte[1];
        return RandomAccess.Read(file, last, position - 1) == 1 && last[0] == (byte)'\n';
    }
}
