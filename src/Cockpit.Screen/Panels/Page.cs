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
        Layout at = Layout.For(width, height);
        Put(page, at.Command, CommandPanel.Of(now, move, width, at.Command.Height));
        Put(page, at.Clock, ClockPanel.Of(now, input.Player, input.Replay, width));
        Put(page, at.Hold, HoldPanel.Of(now, width));
        Put(page, at.Pursuit, PursuitPanel.Of(now, at.Pursuit.Width, at.Pursuit.Height));
        if (input.Help)
        {
            Put(page, at.Help, HelpPanel.Of(input.Replay, at.Help.Width, at.Help.Height));
        }
        else
        {
            Put(page, at.Sky, SkyPanel.Of(now, at.Sky.Width, at.Sky.Height));
            Put(page, at.Readings, ReadingsPanel.Of(now, at.Readings.Width, at.Readings.Height));
        }

        Put(page, at.Level, LevelPanel.Of(now, width, at.Level.Height));
        Put(page, at.Message, MessagePanel.Of(now, width));
        Put(page, at.Keys, KeysPanel.Of(input, width));
        return (page.ToBlock(), new PageMemory(move));
    }

    private static void Put(Canvas page, Place place, Block block) => page.Put(block, place.Column, place.Row);
}
