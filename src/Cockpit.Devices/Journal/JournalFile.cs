using Microsoft.Win32.SafeHandles;

namespace Cockpit.Devices.Journal;

/// <summary>A journal on a disk; others may read it while it grows, nobody else may write it.</summary>
/// <param name="path">Path of the file; its folder must be there.</param>
public sealed class JournalFile(string path) : IJournalFile
{
    private SafeFileHandle? _handle;

    /// <inheritdoc/>
    public string Path => path;

    /// <inheritdoc/>
    public long Open()
    {
        Close();
        _handle = File.OpenHandle(path, FileMode.OpenOrCreate, FileAccess.Write, FileShare.Read | FileShare.Delete);
        return RandomAccess.GetLength(_handle);
    }

    /// <inheritdoc/>
    public void Write(ReadOnlySpan<byte> bytes, long offset) => RandomAccess.Write(Opened, bytes, offset);

    /// <inheritdoc/>
    public void Sync()
    {
        RandomAccess.FlushToDisk(Opened);
        if (!File.Exists(path))
        {
            throw new FileNotFoundException("the file was removed while it was written", path);
        }
    }

    /// <inheritdoc/>
    public void Close()
    {
        _handle?.Dispose();
        _handle = null;
    }

    /// <inheritdoc/>
    public void Dispose() => Close();

    private SafeFileHandle Opened => _handle ?? throw new IOException("the file is not open");
}
