using System.Globalization;
using Cockpit.Screen.Themes;
using Cockpit.Session.State;

namespace Cockpit.Screen.Panels;

/// <summary>Everything a page is made of.</summary>
/// <param name="Snapshot">The moment; null before the first.</param>
/// <param name="Player">The player of a replay.</param>
/// <param name="Replay">The keys of the player work.</param>
/// <param name="Help">Help is open.</param>
/// <param name="Notice">A sentence of the screen itself.</param>
internal sealed record PageInput(Snapshot? Snapshot, PlayerNow? Player, bool Replay, bool Help, string? Notice);

/// <summary>What a page must remember of the one before, so that numbers do not flicker.</summary>
/// <param name="Move">The move as it is shown.</param>
internal sealed record PageMemory(ShownMove? Move)
{
    public static PageMemory Blank { get; } = new(Move: null);
}

/// <summary>Puts the panels together.</summary>
internal static class Page
{
    public const int LeastWidth = 80;
    public const int LeastHeight = 24;

    /// <summary>The page of a moment; pure.</summary>
    public static (Block Page, PageMemory Memory) Compose(PageInput input, PageMemory memory, int width, int height)
    {
        if (width < LeastWidth || height < LeastHeight)
        {
            return (TooSmallPanel.Of(width, height), memory);
        }

        Canvas page = new(width, height);
        if (input.Snapshot is not { } now)
        {
            page.Text(2, height / 2, "Cockpit opens the session.", Role.Plain);
            return (page.ToBlock(), memory);
        }

        ShownMove? move = ShownMove.Next(memory.Move, now.Aim, now.Elapsed);
        Command command = Command.Of(now, move);
        page.Text(0, 0, command.ToString().PadRight(width), command.Role);
        page.Text(0, 1, now.Utc.ToString("HH:mm:ss 'UTC'", CultureInfo.InvariantCulture), Role.Strong);
        page.Text(0, height - 2, now.Message?.Text ?? "", Role.Plain);
        page.Text(0, height - 1, input.Notice ?? "", Role.Advisory);
        return (page.ToBlock(), new PageMemory(move));
    }
}
