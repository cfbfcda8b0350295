using System.Collections.Immutable;
using Cockpit.Screen.Themes;
using Cockpit.Session.Events;
using Cockpit.Session.State;

namespace Cockpit.Screen.Panels;

/// <summary>The code for the phone, and beside it the address and what to do.</summary>
internal static class PairingPanel
{
    private const int Gap = 2;
    private const int TextWidth = 41;

    private static readonly ImmutableArray<(string Text, Role Role)> Before =
    [
        ("PHONE ON THE DISH", Role.Strong),
        ("", Role.Plain),
        ("1 Bring phone and laptop into one", Role.Plain),
        ("  network: the phone's hotspot will do.", Role.Plain),
        ("2 Scan the code, or type:", Role.Plain),
    ];

    private static readonly ImmutableArray<(string Text, Role Role)> After =
    [
        ("3 \"Not private\", says the phone once: it", Role.Plain),
        ("  cannot know this laptop. Details, go on", Role.Plain),
        ("4 Touch START. Strap it so that it cannot", Role.Plain),
        ("  fall, camera along the dish, screen to", Role.Plain),
        ("  you, a hand's breadth from any steel.", Role.Plain),
        ("W hides this and brings it back.", Role.Dim),
        ("", Role.Plain),
    ];

    /// <summary>Rows that it needs.</summary>
    public static int RowsOf(ShownPairing pairing, bool sevenBit) => Math.Max(sevenBit ? 0 : pairing.Code.Length, Before.Length + After.Length + 2);

    /// <summary>The panel; where the terminal has seven bits only, or no room, without the code.</summary>
    /// <param name="pairing">What is shown.</param>
    /// <param name="trouble">How it stands with the phone, to be read behind its name; null where there is nothing to say.</param>
    /// <param name="sevenBit">In seven-bit characters only.</param>
    /// <param name="width">Columns.</param>
    /// <param name="height">Rows.</param>
    public static Block Of(ShownPairing pairing, string? trouble, bool sevenBit, int width, int height)
    {
        Canvas canvas = new(width, height);
        bool drawn = !sevenBit && height >= pairing.Code.Length && width >= pairing.CodeWidth;
        bool beside = width >= pairing.CodeWidth + Gap + TextWidth;
        int left = drawn && beside ? Math.Max(0, (width - pairing.CodeWidth - Gap - TextWidth) / 4) : 0;
        int top = Math.Max(0, (height - RowsOf(pairing, sevenBit)) / 2);
        if (drawn)
        {
            for (int row = 0; row < pairing.Code.Length; row++)
            {
                canvas.Text(left, top + row, pairing.Code[row], Role.Code);
            }
        }

        if (!drawn || beside)
        {
            Words(canvas, drawn ? left + pairing.CodeWidth + Gap : left + 1, top, pairing, trouble, drawn);
        }

        return canvas.ToBlock();
    }

    private static void Words(Canvas canvas, int column, int row, ShownPairing pairing, string? trouble, bool drawn)
    {
        foreach ((string text, Role role) in Before)
        {
            canvas.Text(column, row++, !drawn && text.StartsWith('2') ? "2 Type this address on the phone:" : text, role);
        }

        // Broken before the token, so that neither half is broken again.
        int end = pairing.Address.TrimEnd('/').LastIndexOf('/') + 1;
        canvas.Text(column + 2, row++, pairing.Address[..end], Role.Strong);
        canvas.Text(column + 2, row++, pairing.Address[end..], Role.Strong);
        foreach ((string text, Role role) in After)
        {
            canvas.Text(column, row++, text, role);
        }

        foreach (string line in trouble is null ? [] : TooSmallPanel.Wrap($"Phone {trouble}", TextWidth - 1))
        {
            canvas.Text(column, row++, line, Role.Caution);
        }
    }

    /// <summary>How it stands with the phone; null where nothing is to be said.</summary>
    public static string? TroubleOf(Snapshot now) =>
        now.Feeds.IsDefault ? null : now.Feeds.FirstOrDefault(feed => string.Equals(feed.Name, Sources.Phone, StringComparison.Ordinal))?.Trouble;
}
