using System.Text;

namespace Cockpit.Core.Formats;

/// <summary>Text read once, from front to back, with line numbers and limits; a file of any length needs one small buffer.</summary>
/// <param name="reader">Where the text comes from; the caller closes it.</param>
/// <param name="limit">Most characters that are taken; what lies behind is not read.</param>
internal sealed class InputReader(TextReader reader, long limit)
{
    private const char ByteOrderMark = '\uFEFF';
    private readonly char[] _buffer = new char[8192];
    private readonly StringBuilder _line = new();
    private int _next;
    private int _count;
    private long _filled;

    /// <summary>Line of the next character, from 1.</summary>
    internal int Line { get; private set; } = 1;

    /// <summary>Column of the next character, from 1.</summary>
    internal int Column { get; private set; } = 1;

    /// <summary>The limit was reached and there was more.</summary>
    internal bool TooLarge { get; private set; }

    /// <summary>A control character that no text holds; reading ends before it.</summary>
    internal (int Line, int Column, int Character)? Binary { get; private set; }

    /// <summary>Reading ended before the end of the input.</summary>
    internal bool Stopped => TooLarge || Binary is not null;

    /// <summary>The next character without taking it; -1 at the end. A lone CR and the CR of a CR LF come as LF.</summary>
    internal int Peek()
    {
        if (_next == _count && !Fill())
        {
            return -1;
        }

        char c = _buffer[_next];
        if (c >= ' ' || c is '\t' or '\n')
        {
            return c;
        }

        if (c is '\r' or '\f')
        {
            return c == '\r' ? '\n' : ' ';
        }

        Binary ??= (Line, Column, c);
        return -1;
    }

    /// <summary>Takes the next character; -1 at the end.</summary>
    internal int Read()
    {
        int c = Peek();
        if (c < 0)
        {
            return -1;
        }

        bool carriageReturn = _buffer[_next] == '\r';
        _next++;
        if (c != '\n')
        {
            Column++;
            return c;
        }

        if (carriageReturn && (_next < _count || Fill()) && _buffer[_next] == '\n')
        {
            _next++;
        }

        Line++;
        Column = 1;
        return c;
    }

    /// <summary>Takes the rest of the line without its end.</summary>
    /// <param name="most">Characters kept; a longer line loses its tail.</param>
    /// <param name="cut">The line was longer.</param>
    internal string ReadLine(int most, out bool cut)
    {
        cut = false;
        _line.Clear();
        for (int c = Read(); c is >= 0 and not '\n'; c = Read())
        {
            if (_line.Length < most)
            {
                _line.Append((char)c);
            }
            else
            {
                cut = true;
            }
        }

        return _line.ToString();
    }

    /// <summary>Takes blanks and ends of lines.</summary>
    internal void SkipBlank()
    {
        while (Peek() is ' ' or '\t' or '\n')
        {
            Read();
        }
    }

    private bool Fill()
    {
        if (_filled >= limit)
        {
            TooLarge = TooLarge || reader.Peek() >= 0;
            return false;
        }

        bool start = _filled == 0;
        _next = 0;
        _count = reader.Read(_buffer, 0, (int)Math.Min(_buffer.Length, limit - _filled));
        _filled += _count;
        if (start && _count > 0 && _buffer[0] == ByteOrderMark)
        {
            _next = 1;
        }

        return _next < _count || (_count > 0 && Fill());
    }
}
