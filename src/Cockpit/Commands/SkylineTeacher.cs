using System.Globalization;
using Cockpit.Core.Units;

namespace Cockpit.Commands;

/// <summary>Runs a lesson to its end: by keys in a terminal, by lines without one.</summary>
/// <param name="place">Name of the place.</param>
/// <param name="output">Where the drawing goes.</param>
/// <param name="signs">What it is drawn with.</param>
internal sealed class SkylineTeacher(string place, TextWriter output, DrawingSigns signs)
{
    private readonly SkylineDrawing _drawing = new(signs);

    /// <summary>Runs it.</summary>
    /// <param name="lesson">Where it begins.</param>
    public SkylineLesson Run(SkylineLesson lesson) => Console.IsInputRedirected || Console.IsOutputRedirected ? ByLines(lesson) : ByKeys(lesson);

    /// <summary>What the terminal shows.</summary>
    internal IEnumerable<string> Page(SkylineLesson lesson)
    {
        string turned = lesson.Turn == 0.0 ? "azimuth true" : string.Create(CultureInfo.InvariantCulture, $"azimuth as read, {lesson.Turn:+0.0;-0.0} is added; drawn true");
        yield return string.Create(CultureInfo.InvariantCulture, $"SKYLINE of {place}, {turned}, {lesson.Points.Count} points");
        foreach (string line in _drawing.Lines(lesson.Mask, Angle.FromDegrees(lesson.Azimuth + lesson.Turn)))
        {
            yield return line;
        }

        yield return string.Create(CultureInfo.InvariantCulture, $"at azimuth {lesson.Azimuth:000.#}, elevation {lesson.Elevation:0.#}    typed: {lesson.Typed}_");
        yield return lesson.Note;
        yield return "left right: 5 along   up down: 1 up   Enter: take   or type AZ EL and Enter";
        yield return "Backspace: take back  S: keep in the settings  Q: leave";
        yield return "Never look along the dish near the sun.";
    }

    private SkylineLesson ByKeys(SkylineLesson lesson)
    {
        while (lesson.State == LessonState.Open)
        {
            Console.Clear();
            foreach (string line in Page(lesson))
            {
                output.WriteLine(line);
            }

            output.Flush();
            ConsoleKeyInfo key = Console.ReadKey(intercept: true);
            lesson = lesson.Press(NameOf(key));
        }

        return lesson;
    }

    private SkylineLesson ByLines(SkylineLesson lesson)
    {
        while (lesson.State == LessonState.Open && Console.In.ReadLine() is { } line)
        {
            lesson = lesson.Line(line);
            if (lesson.Note.Length > 0)
            {
                output.WriteLine(lesson.Note);
            }
        }

        return lesson.State == LessonState.Open ? lesson.Press("S") : lesson;
    }

    /// <summary>Name of a key, or the character it types.</summary>
    internal static string NameOf(ConsoleKeyInfo key) => key.Key switch
    {
        ConsoleKey.LeftArrow => "Left",
        ConsoleKey.RightArrow => "Right",
        ConsoleKey.UpArrow => "Up",
        ConsoleKey.DownArrow => "Down",
        ConsoleKey.Enter => "Enter",
        ConsoleKey.Backspace => "Backspace",
        ConsoleKey.Escape => "Escape",
        _ => key.KeyChar.ToString(),
    };
}
