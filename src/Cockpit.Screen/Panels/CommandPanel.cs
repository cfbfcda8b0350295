using System.Globalization;
using Cockpit.Screen.Themes;
using Cockpit.Session.State;

namespace Cockpit.Screen.Panels;

/// <summary>The band at the top: the command in letters for two metres, beside it the same in words.</summary>
internal static class CommandPanel
{
    private const int CaptionWidth = 17;
    private const int Left = 4;

    /// <summary>The band.</summary>
    /// <param name="now">The moment.</param>
    /// <param name="move">The move as it is shown.</param>
    /// <param name="width">Columns.</param>
    /// <param name="rows">3, or 5 for larger letters.</param>
    public static Block Of(Snapshot now, ShownMove? move, int width, int rows)
    {
        Command command = Command.Of(now, move);
        Canvas canvas = new(width, rows, command.Role);
        for (int row = 0; row < rows; row++)
        {
            canvas.Text(0, row, Mark(now.Aim.Word), command.Role);
        }

        string big = Big(command, now, width - Left - CaptionWidth - 1);
        if (rows >= BigLetters.Dots)
        {
            BigLetters.PaintWhole(canvas, Left, (rows - BigLetters.Dots) / 2, big, command.Role);
        }
        else
        {
            BigLetters.PaintHalf(canvas, Left, 0, big, command.Role);
        }

        List<string> caption = Caption(command, now, move);
        int top = Math.Max(0, (rows - caption.Count) / 2);
        for (int i = 0; i < caption.Count && top + i < rows; i++)
        {
            canvas.Text(width - CaptionWidth, top + i, Figures.Fit(caption[i], CaptionWidth), command.Role);
        }

        return canvas.ToBlock();
    }

    /// <summary>A mark at the left edge, different for each word, so that the band differs without colour too.</summary>
    private static string Mark(AimWord word) => word switch
    {
        AimWord.Hold => "██",
        AimWord.Move => "▶▶",
        AimWord.Next => "▷▷",
        AimWord.Search => "▒▒",
        AimWord.Peak => "╱╲",
        AimWord.Point => "┊┊",
        _ => "  ",
    };

    private static string Big(Command command, Snapshot now, int room)
    {
        if (command.Role == Role.Point && now.Aim.Target is { } target)
        {
            return string.Create(CultureInfo.InvariantCulture, $"POINT {Whole(target.Azimuth.WrappedToTurn().Degrees) % 360}° {Arrows.Up}{Whole(target.Elevation.Degrees)}°");
        }

        string seconds = command.Seconds is { } s ? string.Create(CultureInfo.InvariantCulture, $" {s}s") : "";
        string side = command.Side is null ? "" : $"{command.SideArrow}{Number(command.Side)}";
        string lift = command.Lift is null ? "" : $"{command.LiftArrow}{Number(command.Lift)}";
        string sideWords = command.Side is null ? "" : $" {command.SideArrow} {command.Side}";
        string liftWords = command.Lift is null ? "" : $" {command.LiftArrow} {command.Lift}";
        string[] forms =
        [
            $"{command.Word}{seconds} {sideWords} {liftWords}".TrimEnd(),
            $"{command.Word}{seconds}  {side}  {lift}".TrimEnd(),
            $"{command.Word}  {side}  {lift}".TrimEnd(),
            $"{command.Word} {side} {lift}".TrimEnd(),
            $"{side} {lift}".Trim(),
            command.Word,
        ];
        return forms.First(form => ReferenceEquals(form, forms[^1]) || (BigLetters.Width(form) <= room && (form.Length > 0) && Roomy(form, forms[0], room)));
    }

    /// <summary>The long form only where the longest one has room, so that the letters do not change places with the numbers.</summary>
    private static bool Roomy(string form, string longForm, int room) =>
        !ReferenceEquals(form, longForm) || BigLetters.Width($"NEXT 12s {Arrows.Right} RIGHT 20 {Arrows.Down} DOWN 20") <= room;

    private static string Number(string figure) => figure[(figure.LastIndexOf(' ') + 1)..];

    private static int Whole(double degrees) => (int)Math.Round(degrees, MidpointRounding.AwayFromZero);

    private static List<string> Caption(Command command, Snapshot now, ShownMove? move) => now.Aim.Word switch
    {
        AimWord.Point => PointCaption(now),
        AimWord.Hold => HoldCaption(now, move),
        AimWord.Search => [command.Word, "sweep slowly", "at the best: P"],
        AimWord.Peak => [command.Word, "small moves", "at the best: P"],
        AimWord.Done => [command.Word, "the pass is over"],
        _ => [Words(command), .. Lines(command)],
    };

    private static string Words(Command command) =>
        command.Seconds is { } s ? string.Create(CultureInfo.InvariantCulture, $"{command.Word} in {s} s") : command.Word;

    private static IEnumerable<string> Lines(Command command)
    {
        if (command.Side is not null)
        {
            yield return $"{command.SideArrow} {command.Side}";
        }

        if (command.Lift is not null)
        {
            yield return $"{command.LiftArrow} {command.Lift}";
        }
    }

    private static List<string> HoldCaption(Snapshot now, ShownMove? move)
    {
        Command next = Command.Of(now with { Aim = now.Aim with { Word = AimWord.Next } }, move);
        return next.Side is null && next.Lift is null ? ["HOLD"] : ["HOLD, then", .. Lines(next)];
    }

    private static List<string> PointCaption(Snapshot now)
    {
        if (now.Aim.Target is not { } target)
        {
            return ["POINT", "no pass known"];
        }

        List<string> lines = [$"azimuth   {Figures.Azimuth(target.Azimuth.WrappedToTurn().Degrees)}"];
        if (now.Settings?.MagneticDeclination is { } declination)
        {
            lines.Add($"magnetic  {Figures.Azimuth((target.Azimuth - declination).WrappedToTurn().Degrees)}");
        }

        lines.Add($"elevation {Figures.Of(target.Elevation.Degrees, 5, 1)}");
        return lines;
    }
}
