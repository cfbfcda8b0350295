using System.Collections.Immutable;
using System.Globalization;
using Cockpit.Screen.Themes;
using Cockpit.Session.Review;

namespace Cockpit.Screen.Panels;

/// <summary>One line of a replay: the whole session from left to right, with what it can jump to and where it is now.</summary>
internal static class TimelinePanel
{
    private const int Left = 12;

    /// <summary>What covers what where two meet in a cell: the later covers the earlier.</summary>
    private static readonly ImmutableArray<MilestoneKind> Order = [MilestoneKind.Nudge, MilestoneKind.Gap, MilestoneKind.Mark, MilestoneKind.Alarm];

    public static Block Of(PlayerNow player, int width)
    {
        Canvas canvas = new(width, 1);
        canvas.Text(1, 0, Name(player), Role.Dim);
        int room = width - Left - 1;
        int now = Cell(player.Position, player.Length, room);
        for (int i = 0; i < room; i++)
        {
            canvas.Glyph(Left + i, 0, i < now ? '━' : '─', i < now ? Role.Track : Role.Grid);
        }

        ImmutableArray<Milestone> stops = player.Stops ?? [];
        foreach (MilestoneKind kind in Order)
        {
            foreach (Milestone stop in stops.Where(stop => stop.Kind == kind && (player.Only ?? kind) == kind))
            {
                Draw(canvas, stop, player.Length, room);
            }
        }

        canvas.Glyph(Left + now, 0, '█', Role.Strong);
        return canvas.ToBlock();
    }

    private static string Name(PlayerNow player)
    {
        if (player.Stops is not { } stops)
        {
            return "looking";
        }

        int count = stops.Count(stop => (player.Only ?? stop.Kind) == stop.Kind);
        return string.Create(CultureInfo.InvariantCulture, $"{TimelineWords.Plural(player.Only)} {count}");
    }

    private static void Draw(Canvas canvas, Milestone stop, TimeSpan length, int room)
    {
        (char glyph, Role role) = stop.Kind switch
        {
            MilestoneKind.Mark => ('▲', Role.Good),
            MilestoneKind.Nudge => ('╵', Role.AimPoint),
            MilestoneKind.Gap => ('▒', Role.Caution),
            _ => ('!', Role.Warning),
        };
        int last = Cell(stop.Until, length, room);
        for (int i = Cell(stop.At, length, room); i <= last; i++)
        {
            canvas.Glyph(Left + i, 0, glyph, role);
        }
    }

    private static int Cell(TimeSpan at, TimeSpan length, int room) =>
        length <= TimeSpan.Zero ? 0 : (int)Math.Clamp(at / length * room, 0.0, room - 1.0);
}
