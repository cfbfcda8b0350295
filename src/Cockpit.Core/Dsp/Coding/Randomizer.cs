namespace Cockpit.Core.Dsp.Coding;

/// <summary>The pseudo-randomizer: a fixed sequence that is added to everything of a frame but its marker.</summary>
/// <remarks>Source: CCSDS 131.0-B-2 (2011), section 9: x^8 + x^7 + x^5 + x^3 + 1, all ones at the first bit after the marker; starts FF 48 0E C0 9A.</remarks>
public static class Randomizer
{
    private const int Period = 255;
    private static readonly byte[] Sequence = Make();

    /// <summary>Adds the sequence; twice gives what was there before.</summary>
    /// <param name="octets">What stands after the marker.</param>
    public static void Apply(Span<byte> octets)
    {
        for (int i = 0; i < octets.Length; i++)
        {
            octets[i] ^= Sequence[i % Period];
        }
    }

    // 255 bits repeat, so 255 octets do as well.
    private static byte[] Make()
    {
        byte[] octets = new byte[Period];
        uint register = 0xFF;
        for (int bit = 0; bit < Period * 8; bit++)
        {
            uint sent = register & 1;
            octets[bit / 8] |= (byte)(sent << (7 - (bit % 8)));
            uint next = (register ^ (register >> 3) ^ (register >> 5) ^ (register >> 7)) & 1;
            register = (register >> 1) | (next << 7);
        }

        return octets;
    }
}
