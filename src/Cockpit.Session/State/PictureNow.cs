using System.Collections.Immutable;

namespace Cockpit.Session.State;

/// <summary>The picture as it grows while the dish is steered.</summary>
/// <param name="Lines">Lines so far, lost ones among them.</param>
/// <param name="Lost">How many of them were lost.</param>
/// <param name="Rows">The latest, oldest first, as <see cref="Core.Signal.GreyRow"/> writes them; empty = lost.</param>
public sealed record PictureNow(long Lines, long Lost, ImmutableArray<string> Rows)
{
    /// <summary>Most rows that a snapshot holds: half a minute of picture.</summary>
    public const int MostRows = 180;
}
