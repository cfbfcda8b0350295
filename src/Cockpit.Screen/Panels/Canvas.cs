using System.Collections.Immutable;
using System.Text;
using Cockpit.Screen.Themes;

namespace Cockpit.Screen.Panels;

/// <summary>A grid of cells that a panel paints on before it becomes a block. Text covers dots, dots never cover text.</summary>
/// <remarks>Dots are braille: two across and four down a cell (Unicode 15, block 2800-28FF, dot n = bit n - 1).</remarks>
internal sealed class Canvas
{
    /// <summary>Stands in a cell whose text is longer than one character; no text holds it (a noncharacter).</summary>
    private const char Longer = '\uFDD0';

    /// <summary>Stands in the second column of a wide cell; no text holds it either.</summary>
    private const char Second = '\uFDD1';

    /// <summary>The bits of a cell's dots: two columns and four rows, the rows one after the other.</summary>
    public static readonly byte[] DotBits = [0x01, 0x08, 0x02, 0x10, 0x04, 0x20, 0x40, 0x80];

    private readonly Dictionary<int, string> _longer = [];
    private readonly char[] _glyphs;
    private readonly Role[] _roles;
    private readonly byte[] _dots;

    private readonly bool _latestOnly;

    /// <summary>An empty canvas.</summary>
    /// <param name="width">Columns.</param>
    /// <param name="height">Rows.</param>
    /// <param name="ground">The role of what is not painted.</param>
    /// <param name="latestOnly">A dot takes away the dots of other roles in its cell: a cell that becomes a letter can show one stroke only.</param>
    public Canvas(int width, int height, Role ground = Role.Plain, bool latestOnly = false)
    {
        _latestOnly = latestOnly;
        Width = width;
        Height = height;
        _glyphs = new char[width * height];
        _roles = new Role[width * height];
        _dots = new byte[width * height];
        Array.Fill(_roles, ground);
    }

    public int Width { get; }

    public int Height { get; }

    /// <summary>Dots across.</summary>
    public int DotWidth => 2 * Width;

    /// <summary>Dots down.</summary>
    public int DotHeight => 4 * Height;

    /// <summary>Writes text; what does not fit is cut, what cannot be drawn becomes a replacement sign.</summary>
    public void Text(int column, int row, string text, Role role)
    {
        ReadOnlySpan<char> rest = text;
        while (CellColumns.Take(ref rest, out ReadOnlySpan<char> cell, out int width))
        {
            if (width == 2)
            {
                Wide(column, row, cell, role);
            }
            else
            {
                Narrow(column, row, cell, role);
            }

            column += width;
        }
    }

    /// <summary>Writes text that ends at a column (not included).</summary>
    public void TextBefore(int end, int row, string text, Role role) => Text(end - CellColumns.Width(text), row, text, role);

    /// <summary>Writes one character of one column.</summary>
    public void Glyph(int column, int row, char glyph, Role role)
    {
        if ((uint)column < (uint)Width && (uint)row < (uint)Height)
        {
            Uncover(column, row);
            Set((row * Width) + column, glyph, role);
        }
    }

    /// <summary>Sets a dot; a later dot of another role recolours its cell.</summary>
    public void Dot(int x, int y, Role role)
    {
        if ((uint)x >= (uint)DotWidth || (uint)y >= (uint)DotHeight)
        {
            return;
        }

        int at = ((y >> 2) * Width) + (x >> 1);
        if (_glyphs[at] == '\0')
        {
            byte before = _latestOnly && _roles[at] != role ? (byte)0 : _dots[at];
            _dots[at] = (byte)(before | DotBits[((y & 3) << 1) | (x & 1)]);
            _roles[at] = role;
        }
    }

    /// <summary>A line of dots (Bresenham 1965), every <paramref name="step"/>th dot set.</summary>
    public void Line(int x0, int y0, int x1, int y1, Role role, int step = 1)
    {
        int dx = Math.Abs(x1 - x0);
        int dy = -Math.Abs(y1 - y0);
        int sx = x0 < x1 ? 1 : -1;
        int sy = y0 < y1 ? 1 : -1;
        int error = dx + dy;
        int longest = Math.Min(Math.Max(dx, -dy), 4 * (DotWidth + DotHeight));
        for (int n = 0; n <= longest; n++)
        {
            if (n % step == 0)
            {
                Dot(x0, y0, role);
            }

            int twice = 2 * error;
            if (twice >= dy)
            {
                error += dy;
                x0 += sx;
            }

            if (twice <= dx)
            {
                error += dx;
                y0 += sy;
            }
        }
    }

    /// <summary>A circle of dots with a gap of about <paramref name="pitch"/> dots between them.</summary>
    public void Circle(double centreX, double centreY, double radius, Role role, double pitch = 1.0)
    {
        int count = Math.Max(8, (int)(Math.Tau * radius / pitch));
        for (int n = 0; n < count; n++)
        {
            (double sin, double cos) = Math.SinCos(Math.Tau * n / count);
            Dot((int)Math.Round(centreX + (radius * sin)), (int)Math.Round(centreY - (radius * cos)), role);
        }
    }

    /// <summary>Copies a block; cells outside are cut.</summary>
    public void Put(Block block, int column, int row)
    {
        for (int line = 0; line < block.Height; line++)
        {
            int at = column;
            foreach (Run run in block.Lines[line])
            {
                Text(at, row + line, run.Text, run.Role);
                at += CellColumns.Width(run.Text);
            }
        }
    }

    /// <summary>What was painted.</summary>
    public Block ToBlock()
    {
        var lines = ImmutableArray.CreateBuilder<ImmutableArray<Run>>(Height);
        for (int row = 0; row < Height; row++)
        {
            lines.Add(LineOf(row));
        }

        return new Block(Width, lines.MoveToImmutable());
    }

    private void Narrow(int column, int row, ReadOnlySpan<char> cell, Role role)
    {
        Glyph(column, row, cell.Length == 1 ? cell[0] : Longer, role);
        if (cell.Length > 1 && (uint)column < (uint)Width && (uint)row < (uint)Height)
        {
            _longer[(row * Width) + column] = cell.ToString();
        }
    }

    /// <summary>A wide cell of which one half lies outside leaves a blank in the other.</summary>
    private void Wide(int column, int row, ReadOnlySpan<char> cell, Role role)
    {
        bool whole = column >= 0 && column + 1 < Width && (uint)row < (uint)Height;
        Glyph(column, row, ' ', role);
        Glyph(column + 1, row, ' ', role);
        if (whole)
        {
            int at = (row * Width) + column;
            Set(at, Longer, role);
            _longer[at] = cell.ToString();
            Set(at + 1, Second, role);
        }
    }

    private void Set(int at, char glyph, Role role)
    {
        _glyphs[at] = glyph;
        _roles[at] = role;
        _dots[at] = 0;
    }

    /// <summary>What covers half of a wide cell takes the other half away too.</summary>
    private void Uncover(int column, int row)
    {
        int at = (row * Width) + column;
        if (_glyphs[at] == Second)
        {
            _glyphs[at - 1] = ' ';
        }

        if (column + 1 < Width && _glyphs[at + 1] == Second)
        {
            _glyphs[at + 1] = ' ';
        }
    }

    private ImmutableArray<Run> LineOf(int row)
    {
        var runs = ImmutableArray.CreateBuilder<Run>();
        int start = 0;
        for (int column = 0; column < Width; column++)
        {
            int at = (row * Width) + column;
            if (column == Width - 1 || _roles[at + 1] != _roles[at])
            {
                runs.Add(new Run(TextOf((row * Width) + start, column + 1 - start), _roles[at]));
                start = column + 1;
            }
        }

        return runs.ToImmutable();
    }

    private string TextOf(int from, int count)
    {
        Span<char> plain = stackalloc char[count];
        bool allPlain = true;
        for (int i = 0; i < count; i++)
        {
            plain[i] = Shown(from + i);
            allPlain &= CellColumns.IsPlain(plain[i]);
        }

        return allPlain ? new string(plain) : TextOf(plain, from);
    }

    private string TextOf(ReadOnlySpan<char> glyphs, int from)
    {
        StringBuilder text = new(glyphs.Length);
        for (int i = 0; i < glyphs.Length; i++)
        {
            _ = glyphs[i] switch
            {
                Longer => text.Append(_longer[from + i]),
                Second => text,
                _ => text.Append(glyphs[i]),
            };
        }

        // Two cells that were apart may read as one where they meet; columns count more than letters.
        string joined = text.ToString();
        return CellColumns.Width(joined) == glyphs.Length
            ? joined
            : string.Concat(glyphs.ToString().Select(glyph => CellColumns.IsPlain(glyph) ? glyph : '\uFFFD'));
    }

    private char Shown(int at) => _dots[at] != 0 ? (char)(0x2800 + _dots[at]) : _glyphs[at] == '\0' ? ' ' : _glyphs[at];
}
