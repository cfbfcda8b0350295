using System.Collections.Immutable;
using Cockpit.Core.Signal;
using Cockpit.Screen.Themes;
using Cockpit.Session.State;

namespace Cockpit.Screen.Panels;

/// <summary>The level of the last minute against what a well-pointed dish should show, then and in the next half minute.</summary>
internal static class LevelPanel
{
    private const double StripSeconds = 60.0;
    private const double AheadSeconds = 30.0;
    private const double SecondsBetweenAhead = 10.0;
    private const double ScaleStepDb = 3.0;
    private const double LeastSpanDb = 6.0;
    private const double RisingDbPerSec = 0.3;
    private const int ScaleWidth = 7;
    private const int WordsColumn = 25;

    public static Block Of(Snapshot now, int width, int height, bool sevenBit = false)
    {
        Canvas canvas = new(width, height, latestOnly: sevenBit);
        Title(canvas, now);
        LinkNow link = now.Link;
        (double low, double high) = Range(link);
        int rows = height - 1;
        canvas.TextBefore(ScaleWidth - 1, 1, Figures.Of(high, 5, 0), Role.Dim);
        canvas.TextBefore(ScaleWidth - 1, height - 1, Figures.Of(low, 5, 0), Role.Dim);
        for (int row = 1; row < height; row++)
        {
            canvas.Glyph(ScaleWidth - 1, row, row == 1 ? '┐' : row == height - 1 ? '┘' : '│', Role.Grid);
        }

        if (rows > 2)
        {
            canvas.TextBefore(ScaleWidth - 1, 1 + (rows / 2), "dB", Role.Dim);
        }

        Strip strip = new(canvas, ScaleWidth, now.Utc, low, high);
        strip.Draw(link.History, point => point.ExpectedDb, Role.Expected, dotted: true);
        strip.Draw(link.History, point => point.MeasuredDb, Role.Measured, dotted: false);
        strip.Ahead(link);
        return canvas.ToBlock();
    }

    /// <summary>The number of the moment in words, for instance "-1.8 dB of expected, falling".</summary>
    public static string Words(LinkNow link)
    {
        if (link.MeasuredDb is not { } measured)
        {
            return "no signal measured";
        }

        string trend = Trend(link) ?? "trend unknown";
        return link.ExpectedDb is { } expected
            ? $"{Figures.Of(measured - expected, 5, 1, signed: true)} dB of expected, {trend}"
            : $"no expectation yet, {trend}";
    }

    /// <summary>"rising", "falling" or "steady"; null where it is not known.</summary>
    public static string? Trend(LinkNow link) => link.TrendDbPerSec switch
    {
        > RisingDbPerSec => "rising",
        < -RisingDbPerSec => "falling",
        null => null,
        _ => "steady",
    };

    private static void Title(Canvas canvas, Snapshot now)
    {
        LinkNow link = now.Link;
        string words = link.MeasuredDb is null && link.Last is { } gone ? $"no signal for {Figures.Span(gone.Age)}" : Words(link);
        bool fresh = link.IsFresh && link.MeasuredDb is not null;
        canvas.Text(1, 0, "LEVEL", Role.Dim);
        string number = $"{Figures.Fit(link.Quantity?.Symbol() ?? "", 5)} {Figures.Of(link.MeasuredDb, 6, 1)} dB{(fresh ? ' ' : '?')}";
        canvas.Text(7, 0, number, fresh ? Role.Strong : Role.Stale);
        bool inPass = now.Sky?.Phase is PassPhase.Climbing or PassPhase.Sinking;
        string side = inPass && link.LockLostFor is { } unlocked
            ? $"× no lock for {Figures.Span(unlocked)}"
            : !fresh && link.Last is { } last ? $"last {Figures.Span(last.Age)} ago" : link.Last?.Value.Locked == true ? "● locked" : "";
        canvas.Text(WordsColumn, 0, Figures.Fit(words, canvas.Width - 1 - side.Length - 1 - WordsColumn).TrimEnd(), fresh ? Role.Strong : Role.Stale);
        canvas.TextBefore(canvas.Width - 1, 0, side, inPass && link.LockLostFor is not null ? Role.Caution : fresh ? Role.Good : Role.Stale);
    }

    private static (double Low, double High) Range(LinkNow link)
    {
        double low = double.PositiveInfinity;
        double high = double.NegativeInfinity;
        foreach (LevelPoint point in link.History.IsDefault ? [] : link.History)
        {
            low = Math.Min(low, Math.Min(point.MeasuredDb ?? low, point.ExpectedDb ?? low));
            high = Math.Max(high, Math.Max(point.MeasuredDb ?? high, point.ExpectedDb ?? high));
        }

        foreach (double db in link.AheadDb.IsDefault ? [] : link.AheadDb)
        {
            low = Math.Min(low, db);
            high = Math.Max(high, db);
        }

        if (low > high)
        {
            return (0.0, LeastSpanDb);
        }

        low = ScaleStepDb * Math.Floor(low / ScaleStepDb);
        high = ScaleStepDb * Math.Ceiling(high / ScaleStepDb);
        return (low, Math.Max(high, low + LeastSpanDb));
    }

    private sealed class Strip(Canvas canvas, int left, DateTimeOffset utc, double low, double high)
    {
        public void Draw(ImmutableArray<LevelPoint> history, Func<LevelPoint, double?> value, Role role, bool dotted)
        {
            (int X, int Y)? before = null;
            foreach (LevelPoint point in history.IsDefault ? [] : history)
            {
                double age = (utc - point.Utc).TotalSeconds;
                if (value(point) is not { } db || age is < 0.0 or > StripSeconds)
                {
                    before = null;
                    continue;
                }

                (int x, int y) = At(-age, db);
                (int x0, int y0) = before ?? (x, y);
                canvas.Line(x0, y0, x, y, role, dotted ? 4 : 1);
                before = (x, y);
            }
        }

        /// <summary>What a well-pointed dish should show next, to the right of now.</summary>
        public void Ahead(LinkNow link)
        {
            (int top, _) = At(0.0, low);
            for (int y = 4; y < canvas.DotHeight; y += 2)
            {
                canvas.Dot(top, y, Role.Grid);
            }

            if (link.ExpectedDb is not { } now || link.AheadDb.IsDefaultOrEmpty)
            {
                return;
            }

            (int X, int Y) before = At(0.0, now);
            for (int i = 0; i < link.AheadDb.Length; i++)
            {
                (int x, int y) = At(SecondsBetweenAhead * (i + 1), link.AheadDb[i]);
                canvas.Line(before.X, before.Y, x, y, Role.Expected, 4);
                before = (x, y);
            }
        }

        /// <summary>Where a level stands, seconds from now.</summary>
        private (int X, int Y) At(double seconds, double db)
        {
            int dots = canvas.DotWidth - 3 - (2 * left);
            int x = (2 * left) + (int)Math.Round((seconds + StripSeconds) / (StripSeconds + AheadSeconds) * dots);
            int y = canvas.DotHeight - 1 - (int)Math.Round((Math.Clamp(db, low, high) - low) / (high - low) * (canvas.DotHeight - 5));
            return (x, y);
        }
    }
}
