using Cockpit.Session.State;

namespace Cockpit.Screen.Panels;

/// <summary>The code for the phone on a page of its own, where it has no room below the band: with clock, message and keys.</summary>
internal static class PairingPage
{
    private const int Feet = 3;

    /// <summary>Whether it takes the whole page.</summary>
    public static bool Takes(ShownPairing pairing, bool sevenBit, int width, int height) =>
        !(width >= Page.LeastWidth && height >= Page.LeastHeight && Layout.For(width, height, replay: false, tallBand: false).Middle.Height >= PairingPanel.RowsOf(pairing, sevenBit))
        && height > Feet;

    /// <summary>The page.</summary>
    public static Block Of(PageInput input, Snapshot now, ShownPairing pairing, int width, int height)
    {
        Canvas canvas = new(width, height);
        canvas.Put(PairingPanel.Of(pairing, PairingPanel.TroubleOf(now), input.SevenBit, width, height - Feet), 0, 0);
        canvas.Put(ClockPanel.Of(now, input.Player, input.Replay, width), 0, height - Feet);
        canvas.Put(MessagePanel.Of(now, width), 0, height - 2);
        canvas.Put(KeysPanel.Of(input, width), 0, height - 1);
        return canvas.ToBlock();
    }
}
