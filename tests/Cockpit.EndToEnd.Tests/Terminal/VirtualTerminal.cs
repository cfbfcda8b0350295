using System.Globalization;
using System.Text;
using Cockpit.Core.Formats;
using Wcwidth;

namespace Cockpit.EndToEnd.Tests.Terminal;

/// <summary>How a cell is written: colours as the SGR parameters that chose them, "" = the terminal's own.</summary>
internal sealed record CellInk(string Text, string Ground, bool Bold, bool Reverse)
{
    public static CellInk Plain { get; } = new("", "", Bold: false, Reverse: false);
}

/// <summary>A cell of the screen; the second column of a wide letter holds the empty text.</summary>
internal sealed record ShownCell(string Text, CellInk Ink)
{
    public static ShownCell Blank { get; } = new(" ", CellInk.Plain);
}

/// <summary>As much of a terminal as the program uses: what stands in which cell after the bytes so far (ECMA-48, xterm control sequences).</summary>
internal sealed class VirtualTerminal(int columns, int rows)
{
    private readonly ShownCell[,] _cells = Blank(columns, rows);
    private readonly StringBuilder _sequence = new();
    private readonly List<string> _harmful = [];
    private CellInk _ink = CellInk.Plain;
    private State _state = State.Text;
    private char _high;
    private int _column;
    private int _row;

    private enum State
    {
        Text = 0,
        Escape = 1,
        Control = 2,
        Command = 3,
        CommandEscape = 4,
        Charset = 5,
    }

    /// <summary>Every character outside a sequence that a terminal obeys and that a screen has no use for.</summary>
    public IReadOnlyList<string> Harmful => _harmful;

    /// <summary>Titles and other commands to the window (OSC) that came.</summary>
    public List<string> Commands { get; } = [];

    /// <summary>The cell at a column and row from 0.</summary>
    public ShownCell this[int column, int row] => _cells[row, column];

    /// <summary>The rows as text, without blanks at their ends.</summary>
    public string Text => string.Join('\n', Enumerable.Range(0, rows).Select(Row));

    /// <summary>A row as text, without blanks at its end.</summary>
    public string Row(int row) => string.Concat(Enumerable.Range(0, columns).Select(column => _cells[row, column].Text)).TrimEnd();

    /// <summary>Takes what the program has sent.</summary>
    public void Write(ReadOnlySpan<char> sent)
    {
        foreach (char unit in sent)
        {
            Take(unit);
        }
    }

    private static ShownCell[,] Blank(int columns, int rows)
    {
        ShownCell[,] cells = new ShownCell[rows, columns];
        for (int i = 0; i < rows * columns; i++)
        {
            cells[i / columns, i % columns] = ShownCell.Blank;
        }

        return cells;
    }

    private void Take(char unit)
    {
        switch (_state)
        {
            case State.Escape:
                _sequence.Clear();
                _state = unit switch
                {
                    '[' => State.Control,
                    ']' or 'P' or '_' or '^' => State.Command,
                    '(' or ')' => State.Charset,
                    _ => State.Text,
                };
                break;
            case State.Charset:
                _state = State.Text;
                break;
            case State.Control when unit is >= '@' and <= '~':
                _state = State.Text;
                Obey(unit, _sequence.ToString());
                break;
            case State.Command when unit == '\a':
            case State.CommandEscape:
                _state = State.Text;
                Commands.Add(_sequence.ToString());
                break;
            case State.Command when unit == '\x1b':
                _state = State.CommandEscape;
                break;
            case State.Control or State.Command:
                _sequence.Append(unit);
                break;
            default:
                Show(unit);
                break;
        }
    }

    private void Show(char unit)
    {
        switch (unit)
        {
            case '\x1b':
                _state = State.Escape;
                break;
            case '\r':
                _column = 0;
                break;
            case '\n':
                _row = Math.Min(_row + 1, rows - 1);
                break;
            case '\b':
                _column = Math.Max(_column - 1, 0);
                break;
            case '\a':
                break;
            default:
                Print(unit);
                break;
        }
    }

    private void Print(char unit)
    {
        if (char.IsHighSurrogate(unit))
        {
            _high = unit;
            return;
        }

        Rune rune = char.IsLowSurrogate(unit) ? new Rune(_high, unit) : new Rune(unit);
        if (TextFilter.IsHarmful(rune))
        {
            _harmful.Add(string.Create(CultureInfo.InvariantCulture, $"U+{rune.Value:X4} in column {_column}, row {_row}"));
            return;
        }

        int width = UnicodeCalculator.GetWidth(rune);
        if (width <= 0)
        {
            Join(rune);
            return;
        }

        if (_column + width > columns)
        {
            _column = 0;
            _row = Math.Min(_row + 1, rows - 1);
        }

        _cells[_row, _column] = new ShownCell(rune.ToString(), _ink);
        if (width == 2)
        {
            _cells[_row, _column + 1] = new ShownCell("", _ink);
        }

        _column += width;
    }

    /// <summary>A mark goes to the letter before it.</summary>
    private void Join(Rune mark)
    {
        if (_column > 0)
        {
            ShownCell before = _cells[_row, _column - 1];
            _cells[_row, _column - 1] = before with { Text = before.Text + mark };
        }
    }

    private void Obey(char verb, string parameters)
    {
        int[] numbers = [.. parameters.TrimStart('?', '>', '<', '=').Split(';').Select(word => int.TryParse(word, CultureInfo.InvariantCulture, out int number) ? number : 0)];
        switch (verb)
        {
            case 'H' or 'f':
                _row = Math.Clamp(numbers[0] - 1, 0, rows - 1);
                _column = Math.Clamp((numbers.Length > 1 ? numbers[1] : 1) - 1, 0, columns - 1);
                break;
            case 'J' when numbers[0] == 2:
            case 'h' or 'l' when parameters.StartsWith("?1049", StringComparison.Ordinal):
                Array.Copy(Blank(columns, rows), _cells, rows * columns);
                break;
            case 'm':
                _ink = Inked(_ink, parameters);
                break;
            default:
                break;
        }
    }

    private static CellInk Inked(CellInk ink, string parameters)
    {
        string[] words = parameters.Split(';');
        for (int i = 0; i < words.Length; i++)
        {
            int length = words[i] is "38" or "48" && i + 1 < words.Length ? words[i + 1] == "2" ? 5 : 3 : 1;
            string colour = string.Join(';', words.Skip(i).Take(length));
            int code = int.TryParse(words[i], CultureInfo.InvariantCulture, out int number) ? number : 0;
            ink = code switch
            {
                0 => CellInk.Plain,
                1 => ink with { Bold = true },
                22 => ink with { Bold = false },
                7 => ink with { Reverse = true },
                27 => ink with { Reverse = false },
                39 => ink with { Text = "" },
                49 => ink with { Ground = "" },
                (>= 30 and <= 38) or (>= 90 and <= 97) => ink with { Text = colour },
                (>= 40 and <= 48) or (>= 100 and <= 107) => ink with { Ground = colour },
                _ => ink,
            };
            i += length - 1;
        }

        return ink;
    }
}
