using System.Buffers;
using System.Globalization;
using System.IO.Compression;

namespace Cockpit.Devices.Journal;

/// <summary>The text of a packed journal. Where the packing is damaged it ends, and <see cref="Trouble"/> says why: what stands before is good.</summary>
/// <remarks>The runtime's own stream takes a packed file that was cut off for one that has ended.</remarks>
/// <param name="packed">The packed bytes; disposed with this.</param>
/// <param name="most">Most bytes that are unpacked: a few packed ones can stand for any number.</param>
internal sealed class UnpackingStream(Stream packed, long most) : Stream
{
    private readonly byte[] _chunk = new byte[16 * 1024];
    private BrotliDecoder _decoder;
    private Memory<byte> _input;
    private bool _done;
    private long _unpacked;

    /// <summary>Why it ended early; null while nothing is wrong.</summary>
    public string? Trouble { get; private set; }

    /// <inheritdoc/>
    public override bool CanRead => true;

    /// <inheritdoc/>
    public override bool CanSeek => false;

    /// <inheritdoc/>
    public override bool CanWrite => false;

    /// <inheritdoc/>
    public override long Length => throw new NotSupportedException();

    /// <inheritdoc/>
    public override long Position
    {
        get => _unpacked;
        set => throw new NotSupportedException();
    }

    /// <inheritdoc/>
    public override int Read(byte[] buffer, int offset, int count) => Read(buffer.AsSpan(offset, count));

    /// <inheritdoc/>
    public override int Read(Span<byte> buffer)
    {
        if (buffer.IsEmpty || _done || Trouble is not null)
        {
            return 0;
        }

        int count = Unpack(buffer);
        _unpacked += count;
        if (_unpacked > most)
        {
            Trouble = string.Create(CultureInfo.InvariantCulture, $"unpacked it has more than {most} bytes, and more of a session is not read");
            return 0;
        }

        return count;
    }

    private int Unpack(Span<byte> buffer)
    {
        while (true)
        {
            OperationStatus status = _decoder.Decompress(_input.Span, buffer, out int used, out int written);
            _input = _input[used..];
            _done = status == OperationStatus.Done;
            if (written > 0 || _done)
            {
                return written;
            }

            if (status == OperationStatus.InvalidData || !More())
            {
                Trouble = "the packed file is damaged or cut off, and what stood behind cannot be unpacked";
                return 0;
            }
        }
    }

    private bool More()
    {
        int count = packed.Read(_chunk);
        _input = _chunk.AsMemory(0, count);
        return count > 0;
    }

    /// <inheritdoc/>
    public override void Flush()
    {
        // Nothing is written.
    }

    /// <inheritdoc/>
    public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

    /// <inheritdoc/>
    public override void SetLength(long value) => throw new NotSupportedException();

    /// <inheritdoc/>
    public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();

    /// <inheritdoc/>
    protected override void Dispose(bool disposing)
    {
        if (disposing)
        {
            _decoder.Dispose();
            packed.Dispose();
        }

        base.Dispose(disposing);
    }
}
