using Cockpit.Devices.Journal;

namespace Cockpit.Tests.Journal;

/// <summary>A journal file in memory on a disk that can be full, gone or slow to fail.</summary>
internal sealed class FailingFile : IJournalFile
{
    private MemoryStream? _handle;

    public string Path => "/sessions/x/session.jsonl";

    public MemoryStream Bytes { get; private set; } = new();

    /// <summary>Bytes that fit; a write past it leaves what fits, like a full disk.</summary>
    public long Room { get; set; } = long.MaxValue;

    public string? SyncTrouble { get; set; }

    public int Syncs { get; private set; }

    /// <summary>The file under the name is gone; what is open still takes writes, as on Unix.</summary>
    public void LoseFile() => Bytes = new MemoryStream();

    public long Open()
    {
        _handle = Bytes;
        return _handle.Length;
    }

    public void Write(ReadOnlySpan<byte> bytes, long offset)
    {
        Assert.NotNull(_handle);
        _handle.Position = offset;
        int fits = (int)Math.Clamp(Room - offset, 0, bytes.Length);
        _handle.Write(bytes[..fits]);
        if (fits < bytes.Length)
        {
            throw new IOException($"No space left on device : '{Path}'");
        }
    }

    public void Sync()
    {
        if (SyncTrouble is not null)
        {
            throw new IOException(SyncTrouble);
        }

        Syncs++;
    }

    public void Close() => _handle = null;

    public void Dispose() => Close();
}
