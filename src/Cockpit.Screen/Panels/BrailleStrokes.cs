namespace Cockpit.Screen.Panels;

/// <summary>Cells of braille dots as the letters and signs that look most like them.</summary>
/// <remarks>Both are blurred, so that a stroke half a dot away still counts; the nearest by the angle between the two is taken.</remarks>
internal static class BrailleStrokes
{
    /// <summary>A cell without a dot.</summary>
    public const char First = '\u2800';

    /// <summary>A cell full of dots.</summary>
    public const char Last = '\u28FF';

    private const int Rows = 4;
    private const int Columns = 2;
    private const int Dense = 7;

    /// <summary>Signs and where they have ink, two columns and four rows, the rows one after the other.</summary>
    private static readonly (char Sign, string Ink)[] Shapes =
    [
        ('\'', "#......."), ('\'', ".#......"), ('"', "##......"), ('-', "..##...."), ('-', "....##.."), ('_', "......##"), ('.', "....#.#."), ('.', ".....#.#"),
        ('|', "#.#.#.#."), ('|', ".#.#.#.#"), ('/', ".#.##.#."), ('\\', "#.#..#.#"), (':', "#...#..."), ('#', "########"),
    ];

    private static readonly string Strokes = new([.. Enumerable.Range(0, Last - First + 1).Select(Nearest)]);

    /// <summary>The sign for a cell of a line.</summary>
    /// <param name="braille">The cell.</param>
    public static char Stroke(char braille) => Strokes[braille - First];

    /// <summary>The sign for a cell of something that is only hinted at: points, high or low.</summary>
    /// <param name="braille">The cell.</param>
    public static char Points(char braille)
    {
        int dots = braille - First;
        return ((dots & 0x1B) != 0, (dots & 0xE4) != 0) switch
        {
            (true, true) => ':',
            (true, false) => '\'',
            (false, true) => '.',
            _ => ' ',
        };
    }

    private static char Nearest(int dots)
    {
        bool[] ink = [.. Enumerable.Range(0, Rows * Columns).Select(at => (dots & Canvas.DotBits[at]) != 0)];
        int count = ink.Count(dot => dot);
        return count == 0 ? ' ' : count >= Dense ? '#' : Shapes.MaxBy(shape => Likeness(Blurred(ink), Blurred([.. shape.Ink.Select(dot => dot == '#')]))).Sign;
    }

    private static double Likeness(double[] one, double[] other) => one.Zip(other, (a, b) => a * b).Sum() / Math.Sqrt(one.Sum(a => a * a) * other.Sum(b => b * b));

    private static double[] Blurred(bool[] ink) => [.. Enumerable.Range(0, ink.Length).Select(at => Enumerable.Range(0, ink.Length).Where(other => ink[other]).Sum(other => Weight(at, other)))];

    /// <summary>1 for the dot itself, a half beside, over and under it, a quarter at its corners.</summary>
    private static double Weight(int at, int other)
    {
        int across = Math.Abs((at % Columns) - (other % Columns));
        int down = Math.Abs((at / Columns) - (other / Columns));
        return down > 1 ? 0.0 : Math.Pow(0.5, across + down);
    }
}
