using Cockpit.Screen.Themes;

namespace Cockpit.Screen.Panels;

/// <summary>Letters of block glyphs, five dots high, that can be read from two metres.</summary>
internal static class BigLetters
{
    /// <summary>Dots of a letter from top to bottom.</summary>
    public const int Dots = 5;

    /// <summary>A cell that is full.</summary>
    public const char Full = '█';

    /// <summary>A cell whose upper half is full.</summary>
    public const char UpperHalf = '▀';

    private const int Gap = 1;

    private static readonly Dictionary<char, string[]> Shapes = new()
    {
        [' '] = ["..", "..", "..", "..", ".."],
        ['A'] = [".##.", "#..#", "####", "#..#", "#..#"],
        ['C'] = [".###", "#...", "#...", "#...", ".###"],
        ['D'] = ["###.", "#..#", "#..#", "#..#", "###."],
        ['E'] = ["####", "#...", "###.", "#...", "####"],
        ['F'] = ["####", "#...", "###.", "#...", "#..."],
        ['G'] = [".###", "#...", "#.##", "#..#", ".###"],
        ['H'] = ["#..#", "#..#", "####", "#..#", "#..#"],
        ['I'] = ["###", ".#.", ".#.", ".#.", "###"],
        ['K'] = ["#..#", "#.#.", "##..", "#.#.", "#..#"],
        ['L'] = ["#...", "#...", "#...", "#...", "####"],
        ['M'] = ["#...#", "##.##", "#.#.#", "#...#", "#...#"],
        ['N'] = ["#...#", "##..#", "#.#.#", "#..##", "#...#"],
        ['O'] = [".##.", "#..#", "#..#", "#..#", ".##."],
        ['P'] = ["###.", "#..#", "###.", "#...", "#..."],
        ['R'] = ["###.", "#..#", "###.", "#.#.", "#..#"],
        ['S'] = [".###", "#...", ".##.", "...#", "###."],
        ['T'] = ["#####", "..#..", "..#..", "..#..", "..#.."],
        ['U'] = ["#..#", "#..#", "#..#", "#..#", ".##."],
        ['V'] = ["#...#", "#...#", "#...#", ".#.#.", "..#.."],
        ['W'] = ["#...#", "#...#", "#.#.#", "##.##", "#...#"],
        ['X'] = ["#...#", ".#.#.", "..#..", ".#.#.", "#...#"],
        ['0'] = [".##.", "#..#", "#..#", "#..#", ".##."],
        ['1'] = ["..#.", ".##.", "..#.", "..#.", ".###"],
        ['2'] = ["###.", "...#", ".##.", "#...", "####"],
        ['3'] = ["###.", "...#", ".##.", "...#", "###."],
        ['4'] = ["#..#", "#..#", "####", "...#", "...#"],
        ['5'] = ["####", "#...", "###.", "...#", "###."],
        ['6'] = [".##.", "#...", "###.", "#..#", ".##."],
        ['7'] = ["####", "...#", "..#.", ".#..", ".#.."],
        ['8'] = [".##.", "#..#", ".##.", "#..#", ".##."],
        ['9'] = [".##.", "#..#", ".###", "...#", ".##."],
        ['.'] = [".", ".", ".", ".", "#"],
        ['+'] = ["...", ".#.", "###", ".#.", "..."],
        ['-'] = ["...", "...", "###", "...", "..."],
        [Arrows.Left] = ["..#..", ".#...", "#####", ".#...", "..#.."],
        [Arrows.Right] = ["..#..", "...#.", "#####", "...#.", "..#.."],
        [Arrows.Up] = ["..#..", ".###.", "#.#.#", "..#..", "..#.."],
        [Arrows.Down] = ["..#..", "..#..", "#.#.#", ".###.", "..#.."],
    };

    /// <summary>Columns that a text fills.</summary>
    public static int Width(string text) => Math.Max(0, text.Sum(letter => Shapes[letter][0].Length + Gap) - Gap);

    /// <summary>Paints a text three rows high: a dot is half a cell high.</summary>
    public static void PaintHalf(Canvas canvas, int column, int row, string text, Role role)
    {
        foreach (string[] shape in text.Select(letter => Shapes[letter]))
        {
            for (int x = 0; x < shape[0].Length; x++)
            {
                for (int y = 0; y < 3; y++)
                {
                    bool upper = shape[2 * y][x] == '#';
                    bool lower = (2 * y) + 1 < Dots && shape[(2 * y) + 1][x] == '#';
                    canvas.Glyph(column + x, row + y, Half(upper, lower), role);
                }
            }

            column += shape[0].Length + Gap;
        }
    }

    /// <summary>Paints a text five rows high: a dot is one or two cells.</summary>
    public static void PaintWhole(Canvas canvas, int column, int row, string text, Role role, int dotWidth)
    {
        foreach (string[] shape in text.Select(letter => Shapes[letter]))
        {
            for (int x = 0; x < shape[0].Length * dotWidth; x++)
            {
                for (int y = 0; y < Dots; y++)
                {
                    canvas.Glyph(column + x, row + y, shape[y][x / dotWidth] == '#' ? Full : ' ', role);
                }
            }

            column += (shape[0].Length + Gap) * dotWidth;
        }
    }

    private static char Half(bool upper, bool lower) => (upper, lower) switch
    {
        (true, true) => Full,
        (true, false) => UpperHalf,
        (false, true) => '▄',
        _ => ' ',
    };
}
