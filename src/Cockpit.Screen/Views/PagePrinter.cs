using Cockpit.Screen.Panels;
using Cockpit.Session.State;

namespace Cockpit.Screen.Views;

/// <summary>Prints what the screen showed at moments of a session; follows all of it, for the move on the screen has a memory.</summary>
/// <param name="width">Columns.</param>
/// <param name="height">Rows.</param>
/// <param name="drawing">What it is drawn with.</param>
public sealed class PagePrinter(int width, int height, Drawing drawing = Drawing.Unicode)
{
    private ShownMove? _move;
    private Snapshot? _now;

    /// <summary>Takes the next moment.</summary>
    public void Follow(Snapshot snapshot)
    {
        ArgumentNullException.ThrowIfNull(snapshot);
        _move = ShownMove.Next(_move, snapshot.Aim, snapshot.Elapsed);
        _now = snapshot;
    }

    /// <summary>The page of the moment that was taken last.</summary>
    /// <param name="player">Where the player is.</param>
    public PrintedPage Print(PlayerNow player)
    {
        ComposedPage composed = Page.Compose(new PageInput(_now, player, Replay: true, Help: false, Notice: null, SevenBit: drawing.IsSevenBit()), new PageMemory(_move), width, height);
        return new PrintedPage([.. composed.Page.Text.Split('\n')], composed.Failures);
    }
}
