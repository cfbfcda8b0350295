using System.Globalization;
using Cockpit.Screen.Themes;

namespace Cockpit.Screen.Panels;

/// <summary>What stands in a terminal that is too small.</summary>
internal static class TooSmallPanel
{
    public static Block Of(int width, int height)
    {
        Canvas canvas = new(Math.Max(width, 1), Math.Max(height, 1));
        string sentence = string.Create(
            CultureInfo.InvariantCulture,
            $"terminal is {width}x{height}, Cockpit needs {SmallPage.LeastWidth}x{SmallPage.LeastHeight}: enlarge it");
        List<string> lines = Wrap(sentence, canvas.Width);
        int top = Math.Max(0, (canvas.Height - lines.Count) / 2);
        for (int i = 0; i < lines.Count; i++)
        {
            canvas.Text(Math.Max(0, (canvas.Width - lines[i].Length) / 2), top + i, lines[i], Role.Strong);
        }

        return canvas.ToBlock();
    }

    /// <summary>A sentence in lines that fit, broken between words.</summary>
    internal static List<string> Wrap(string sentence, int width)
    {
        List<string> lines = [""];
        foreach (string word in sentence.Split(' '))
        {
            string longer = lines[^1].Length == 0 ? word : $"{lines[^1]} {word}";
            if (longer.Length <= width || lines[^1].Length == 0)
            {
                lines[^1] = longer;
            }
            else
            {
                lines.Add(word);
            }
        }

        return lines;
    }
}
