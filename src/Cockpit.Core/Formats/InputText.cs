namespace Cockpit.Core.Formats;

/// <summary>Text read once, from front to back, with line numbers and limits; a file of any length needs one small buffer.</summary>
/// <param name="reader">Where the text comes from; the caller closes it.</param>
/// <param name="limit">Most characters that are taken; what lies behind is not read.</param>
internal sealed class InputText(TextReader reader, long limit)
{
    private const char ByteOrderMark = '\uFEFF';
    private readonly char[] _buffer = new char[8192];
    private int _next;
    private int _count;
    private long _taken;

    /// <summary>Line of the next character, from 1.</summary>
    internal int Line { get; private set; } = 1;

    /// <summary>Column of the next character, from 1.</summary>
    internal int Column { get; private set; } = 1;

    /// <summary>The limit was reached and there was more.</summary>
    internal bool TooLarge { get; private set; }

    /// <summary>Characters taken so far.</summary>
    internal long Taken => _taken;

    /// <summary>The next character without taking it; -1 at the end.</summary>
    internal int Peek()
    {
        if (_next == _count && !Fill())
        {
            return -1;
        }

        return _buffer[_next];
    }

    /// <summary>Takes the next character; -1 at the end. CR LF and a lone CR come as one LF.</summary>
    internal int Read()
    {
        int c = Peek();
        if (c < 0)
        {
            return -1;
        }

        _next++;
        _taken++;
        if (c == '\r')
        {
            if (Peek() == '\n')
            {
                _next++;
                _taken++;
            }

            c = '\n';
        }

        if (c == '\n')
        {
            Line++;
            Column = 1;
        }
        else
        {
            Column++;
        }

        return c;
    }

    /// <summary>Takes the rest of the line without its end; null at the end of the text.</summary>
    /// <param name="most">Characters kept; a longer line loses its tail.</param>
    /// <param name="cut">The line was longer.</param>
    internal string? ReadLine(int most, out bool cut)
    {
        cut = false;
        if (Peek() < 0)
        {
            return null;
        }

        var line = new System.Text.StringBuilder();
        for (int c = Read(); c is >= 0 and not '\n'; c = Read())
        {
            if (line.Length < most)
            {
                line.Append((char)c);
            }
            else
            {
                cut = true;
            }
        }

        return line.ToString();
    }

    private bool Fill()
    {
        if (_taken >= limit)
        {
            TooLarge = TooLarge || reader.Peek() >= 0;
            return false;
        }

        _next = 0;
        _count = reader.Read(_buffer, 0, (int)Math.Min(_buffer.Length, limit - _taken));
        if (_taken == 0 && _count > 0 && _buffer[0] == ByteOrderMark)
        {
            _next = 1;
            _taken = 1;
            return _count > 1 || Fill();
        }

        return _count > 0;
    }
}
