using System.Buffers;
using System.IO.Compression;

namespace Cockpit.Devices.Journal;

/// <summary>The text of a journal in memory, packed: from it the file can be written again when somebody took it away.</summary>
/// <remarks>A pass is some 3 MB of text and a tenth of that packed. At the limit the oldest lines behind the first part go, and are counted.</remarks>
/// <param name="limit">Most packed bytes.</param>
internal sealed class JournalCopy(long limit = JournalCopy.DefaultLimit)
{
    /// <summary>More than a day of a busy session.</summary>
    public const long DefaultLimit = 64 * 1024 * 1024;

    private const int PartBytes = 256 * 1024;

    private readonly List<byte[]> _packed = [];
    private readonly ArrayBufferWriter<byte> _newest = new();
    private long _packedBytes;

    /// <summary>Lines that are no longer held.</summary>
    public long DroppedLines { get; private set; }

    /// <summary>Takes whole lines.</summary>
    public void Add(ReadOnlySpan<byte> lines)
    {
        _newest.Write(lines);
        if (_newest.WrittenCount >= PartBytes)
        {
            byte[] part = Packed(_newest.WrittenSpan);
            _packed.Add(part);
            _packedBytes += part.Length;
            _newest.ResetWrittenCount();
            Limit();
        }
    }

    /// <summary>Everything that is held, in its order.</summary>
    public IEnumerable<byte[]> Parts() => _packed.Select(Unpacked).Append(_newest.WrittenSpan.ToArray());

    private void Limit()
    {
        // The first part stays: the header and the settings are in it.
        while (_packedBytes > limit && _packed.Count > 2)
        {
            DroppedLines += Unpacked(_packed[1]).AsSpan().Count((byte)'\n');
            _packedBytes -= _packed[1].Length;
            _packed.RemoveAt(1);
        }
    }

    private static byte[] Packed(ReadOnlySpan<byte> text)
    {
        using MemoryStream bytes = new();
        using (DeflateStream packing = new(bytes, CompressionLevel.Fastest, leaveOpen: true))
        {
            packing.Write(text);
        }

        return bytes.ToArray();
    }

    private static byte[] Unpacked(byte[] part)
    {
        using DeflateStream unpacking = new(new MemoryStream(part), CompressionMode.Decompress);
        using MemoryStream text = new();
        unpacking.CopyTo(text);
        return text.ToArray();
    }
}
