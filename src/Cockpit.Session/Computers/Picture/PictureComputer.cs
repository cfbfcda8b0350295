using System.Collections.Immutable;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Session.Computers.Picture;

/// <summary>The quick look: the latest lines of the picture. Pure.</summary>
public static class PictureComputer
{
    // A gap of lines that were never told is dark, up to what is shown.
    private const int MostDark = PictureNow.MostRows;

    /// <summary>Folds one event.</summary>
    /// <param name="picture">The picture before; null before the first line.</param>
    /// <param name="happened">The event.</param>
    public static PictureNow? Next(PictureNow? picture, SessionEvent happened) => happened switch
    {
        SessionOpened => null,
        PictureGrew grew => Grown(picture, grew),
        _ => picture,
    };

    private static PictureNow Grown(PictureNow? before, PictureGrew grew)
    {
        // A number that does not go on is a receiver that began anew: its picture goes on below the one before.
        PictureNow picture = before ?? new PictureNow(0, 0, []);
        long untold = before is null ? 0 : Math.Max(0, grew.FirstLine - 1 - picture.Lines);
        int dark = (int)Math.Min(untold, MostDark);
        ImmutableArray<string> all = [.. picture.Rows, .. Enumerable.Repeat("", dark), .. grew.Rows];
        return new PictureNow(
            picture.Lines + untold + grew.Rows.Length,
            picture.Lost + untold + grew.Rows.Count(row => row.Length == 0),
            all.Length > PictureNow.MostRows ? [.. all.AsSpan()[^PictureNow.MostRows..]] : all);
    }
}
