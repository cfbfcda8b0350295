using System.Collections.Immutable;
using Cockpit.Screen.Themes;
using Cockpit.Session.Review;

namespace Cockpit.Screen.Panels;

/// <summary>The last page: what the pass lost, why, and what to do better. It stands where the aim stood, which nobody needs any more.</summary>
internal static class ReviewPanel
{
    /// <summary>Where the words begin; the headings stand before it.</summary>
    private const int Hang = 13;

    private const int Left = 1;
    private const string Levels = "▁▂▃▄▅▆▇█";

    public static Block Of(ShownReview review, int width, int height)
    {
        Canvas canvas = new(width, height);
        if (height < 1)
        {
            return canvas.ToBlock();
        }

        canvas.Text(Left, 0, "REVIEW", Role.Strong);
        string title = review.Lines.IsEmpty ? "" : review.Lines[0];
        canvas.Text(Left + Hang, 0, Figures.Fit(title, width - Left - Hang).TrimEnd(), Role.Plain);
        int row = 1;
        if (height >= 4)
        {
            Strip(canvas, review.States, row++);
        }

        foreach (string line in review.Lines.Skip(1))
        {
            foreach (string part in Wrapped(line, width - Left - 1))
            {
                if (row == height)
                {
                    return canvas.ToBlock();
                }

                Row(canvas, row++, part);
            }
        }

        return canvas.ToBlock();
    }

    /// <summary>The pass from left to right: each cell as high as the share of its lines that was received.</summary>
    private static void Strip(Canvas canvas, ImmutableArray<LineState> states, int row)
    {
        int room = canvas.Width - Left - Hang - 1;
        canvas.Text(Left, row, "received", Role.Dim);
        for (int cell = 0; cell < room && states.Length > 0; cell++)
        {
            int from = (int)((long)cell * states.Length / room);
            int to = Math.Max(from + 1, (int)((long)(cell + 1) * states.Length / room));
            int received = states.AsSpan()[from..to].Count(LineState.Received);
            double share = (double)received / (to - from);
            (char glyph, Role role) = received == 0 ? ('×', Role.Warning)
                : received == to - from ? (Levels[^1], Role.Good)
                : (Levels[(int)(share * (Levels.Length - 1))], Role.Caution);
            canvas.Glyph(Left + Hang + cell, row, glyph, role);
        }
    }

    private static void Row(Canvas canvas, int row, string text)
    {
        if (text.Length <= Hang)
        {
            canvas.Text(Left, row, text, Role.Dim);
            return;
        }

        canvas.Text(Left, row, text[..Hang], Role.Dim);
        canvas.Text(Left + Hang, row, text[Hang..], Role.Plain);
    }

    /// <summary>A line in parts that fit, those after the first under its words.</summary>
    internal static IEnumerable<string> Wrapped(string line, int width)
    {
        string rest = line;
        while (CellColumns.Width(rest) > width && width > 2 * Hang)
        {
            string head = CellColumns.Cut(rest, width);
            int cut = head.LastIndexOf(' ');
            if (cut <= Hang)
            {
                cut = head.TrimEnd().Length;
            }

            yield return rest[..cut].TrimEnd();
            rest = new string(' ', Hang) + rest[cut..].TrimStart();
        }

        yield return rest;
    }
}
