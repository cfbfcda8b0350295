using Cockpit.Devices.Journal;

namespace Cockpit.Tests.Journal;

/// <summary>A journal file in memory on a disk that can be full, gone or slow to fail.</summary>
internal sealed class FailingFile : IJournalFile
{
    private MemoryStream? _handle;
    private MemoryStream? _ours;

    public string Path => "/sessions/x/session.jsonl";

    public MemoryStream? Lies { get; private set; }

    public MemoryStream Bytes => Lies ?? throw new IOException("there is no file");

    /// <summary>What was moved out of the way.</summary>
    public List<MemoryStream> Aside { get; } = [];

    /// <summary>Bytes that fit; a write past it leaves what fits, like a full disk.</summary>
    public long Room { get; set; } = long.MaxValue;

    public string? SyncTrouble { get; set; }

    public int Syncs { get; private set; }

    /// <summary>The file under the name is gone; what is open still takes writes, as on Unix.</summary>
    public void LoseFile() => Lies = null;

    /// <summary>Another file comes under the name.</summary>
    public void Replace(byte[] bytes)
    {
        Lies = new MemoryStream();
        Lies.Write(bytes);
    }

    public JournalPlace Look() => Lies is null
        ? new(JournalPlaceKind.Nothing, 0)
        : new(ReferenceEquals(Lies, _ours) ? JournalPlaceKind.Ours : JournalPlaceKind.Other, Lies.Length);

    public void Open()
    {
        if (Lies is not null && !ReferenceEquals(Lies, _ours))
        {
            throw new IOException("the file exists already");
        }

        _handle = _ours = Lies ??= new MemoryStream();
    }

    public string MoveAside()
    {
        Aside.Add(Bytes);
        Lies = null;
        return $"session.other-{Aside.Count}.jsonl";
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
