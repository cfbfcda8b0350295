using System.Collections.Immutable;
using Cockpit.Screen.Panels;
using Cockpit.Session.State;

namespace Cockpit.Screen.Views;

/// <summary>The page of a moment as text, for checks without a terminal.</summary>
/// <param name="Lines">The rows, without blanks at their ends.</param>
/// <param name="Failures">One sentence for each panel that could not be made.</param>
public sealed record PrintedPage(ImmutableArray<string> Lines, ImmutableArray<string> Failures)
{
    /// <summary>Makes the page.</summary>
    /// <param name="snapshot">The moment.</param>
    /// <param name="player">Where the player is, in a replay; null in a pass.</param>
    /// <param name="width">Columns.</param>
    /// <param name="height">Rows.</param>
    public static PrintedPage Of(Snapshot snapshot, PlayerNow? player, int width, int height)
    {
        ComposedPage composed = Page.Compose(new PageInput(snapshot, player, player is not null, Help: false, Notice: null), PageMemory.Empty, width, height);
        return new PrintedPage([.. composed.Page.Text.Split('\n')], composed.Failures);
    }
}
