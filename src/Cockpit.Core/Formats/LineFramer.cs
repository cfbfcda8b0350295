namespace Cockpit.Core.Formats;

/// <summary>Takes one line without its end (LF or CR LF).</summary>
public delegate void LineTaker(ReadOnlySpan<byte> line);

/// <summary>Cuts a stream of bytes into lines; what is longer than the limit is dropped up to its end and counted.</summary>
/// <remarks>Memory: one buffer, which grows with the lines up to the limit. Not safe from several threads.</remarks>
public sealed class LineFramer
{
    private const int FirstBuffer = 256;

    private readonly int _longestLine;
    private byte[] _partial;
    private int _length;
    private bool _dropping;

    /// <summary>Makes a framer.</summary>
    /// <param name="longestLine">Longest line that is kept, bytes without its end.</param>
    public LineFramer(int longestLine)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(longestLine, 1);

        _longestLine = longestLine;
        _partial = new byte[Math.Min(FirstBuffer, RoomForLongest)];
    }

    /// <summary>Lines dropped because they were too long; counted when they become it, not at their end.</summary>
    public long TooLong { get; private set; }

    /// <summary>Bytes dropped so far of a line that has not ended yet; zero when there is none.</summary>
    public long Endless { get; private set; }

    /// <summary>Lines that ended so far, the dropped ones too; inside a taker: the number of its line from 1.</summary>
    public long Lines { get; private set; }

    /// <summary>Whether bytes wait for the end of their line.</summary>
    public bool HasPartial => _length > 0 || _dropping;

    /// <summary>Room for the CR of a line that is just as long as allowed.</summary>
    private int RoomForLongest => _longestLine + 1;

    /// <summary>Takes bytes as they come and hands on every line that is complete.</summary>
    public void Add(ReadOnlySpan<byte> bytes, LineTaker take)
    {
        for (int end = bytes.IndexOf((byte)'\n'); end >= 0; end = bytes.IndexOf((byte)'\n'))
        {
            Finish(bytes[..end], take);
            bytes = bytes[(end + 1)..];
        }

        Keep(bytes);
    }

    /// <summary>The bytes so far were whole records (a datagram): what has no line end is a line too.</summary>
    public void EndOfRecord(LineTaker take)
    {
        if (HasPartial)
        {
            Finish(default, take);
        }
    }

    /// <summary>Forgets an unfinished line, for a new connection.</summary>
    /// <param name="insideLine">The stream begins inside a line: all up to the next line end is dropped without being counted.</param>
    public void Restart(bool insideLine = false)
    {
        _length = 0;
        _dropping = insideLine;
        Endless = 0;
    }

    private void Finish(ReadOnlySpan<byte> last, LineTaker take)
    {
        ReadOnlySpan<byte> line = last;
        if (HasPartial)
        {
            Keep(last);
            line = _partial.AsSpan(0, _length);
        }

        Lines++;
        bool dropped = _dropping;
        Restart();
        line = line is [.., (byte)'\r'] ? line[..^1] : line;
        if (dropped || line.Length > _longestLine)
        {
            TooLong += dropped ? 0 : 1;
            return;
        }

        take(line);
    }

    private void Keep(ReadOnlySpan<byte> bytes)
    {
        if (_dropping)
        {
            Endless += bytes.Length;
            return;
        }

        int needed = _length + bytes.Length;
        if (needed > RoomForLongest)
        {
            _dropping = true;
            TooLong++;
            Endless = needed;
            _length = 0;
            return;
        }

        if (needed > _partial.Length)
        {
            Array.Resize(ref _partial, (int)Math.Min(Math.Max(2L * _partial.Length, needed), RoomForLongest));
        }

        bytes.CopyTo(_partial.AsSpan(_length));
        _length = needed;
    }
}
