namespace Cockpit.Core.Formats;

/// <summary>Takes one line without its end (LF or CR LF).</summary>
public delegate void LineTaker(ReadOnlySpan<byte> line);

/// <summary>Cuts a stream of bytes into lines; what is longer than the limit is dropped up to its end and counted.</summary>
/// <remarks>Memory: one buffer of the limit. Not safe from several threads.</remarks>
public sealed class LineFramer
{
    private readonly byte[] _partial;
    private int _length;
    private bool _dropping;
    private bool _dropCounts;

    /// <summary>Makes a framer.</summary>
    /// <param name="longestLine">Longest line that is kept, bytes without its end.</param>
    public LineFramer(int longestLine)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(longestLine, 1);

        // Room for the CR of a line that is just as long as allowed.
        _partial = new byte[longestLine + 1];
    }

    /// <summary>Lines dropped because they were too long.</summary>
    public long TooLong { get; private set; }

    private int LongestLine => _partial.Length - 1;

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
        if (_length > 0 || _dropping)
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
        _dropCounts = false;
    }

    private void Finish(ReadOnlySpan<byte> last, LineTaker take)
    {
        ReadOnlySpan<byte> line = last;
        if (_length > 0 || _dropping)
        {
            Keep(last);
            line = _partial.AsSpan(0, _length);
        }

        bool dropped = _dropping;
        bool counts = _dropCounts;
        Restart();
        line = line is [.., (byte)'\r'] ? line[..^1] : line;
        if (dropped || line.Length > LongestLine)
        {
            TooLong += counts || !dropped ? 1 : 0;
            return;
        }

        take(line);
    }

    private void Keep(ReadOnlySpan<byte> bytes)
    {
        if (_dropping)
        {
            return;
        }

        if (_length + bytes.Length > _partial.Length)
        {
            _dropping = true;
            _dropCounts = true;
            _length = 0;
            return;
        }

        bytes.CopyTo(_partial.AsSpan(_length));
        _length += bytes.Length;
    }
}
