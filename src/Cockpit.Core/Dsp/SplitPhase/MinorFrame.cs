namespace Cockpit.Core.Dsp.SplitPhase;

/// <summary>The frame of the split-phase service: one line of the picture.</summary>
/// <remarks>
/// Sync word: format page of the Dundee satellite receiving station; all its bits obey b[n] = b[n-1] ^ b[n-4] ^ b[n-5] ^ b[n-6], started
/// with 101000. Layout of the words behind it: the operator's user guide of the polar satellites, from memory.
/// </remarks>
public static class MinorFrame
{
    /// <summary>Bits of a word.</summary>
    public const int WordBits = 10;

    /// <summary>Words of a frame.</summary>
    public const int Words = 11_090;

    /// <summary>Bits of a frame: a sixth of a second.</summary>
    public const int Bits = Words * WordBits;

    /// <summary>Bits of the sync word: words 1 to 6.</summary>
    public const int SyncBits = 60;

    /// <summary>The sync word, first bit in bit 59.</summary>
    public const ulong Sync = 0x0A116FD719D83C95;

    /// <summary>First word of the Earth view, from 1.</summary>
    public const int FirstEarthWord = 751;

    /// <summary>Channels of the Earth view; their samples come in turn.</summary>
    public const int Channels = 5;

    /// <summary>Samples of each channel in a frame.</summary>
    public const int EarthSamples = 2048;

    /// <summary>Writes one channel of the Earth view.</summary>
    /// <param name="frame">The bits of a frame, packed, most significant first, from its sync word on.</param>
    /// <param name="channel">0 to 4.</param>
    /// <param name="to">2048 samples, 0 to 1023.</param>
    public static void ReadChannel(ReadOnlySpan<byte> frame, int channel, Span<ushort> to)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(channel);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(channel, Channels);
        for (int k = 0; k < EarthSamples; k++)
        {
            int bit = (FirstEarthWord - 1 + (k * Channels) + channel) * WordBits;
            int three = (frame[bit >> 3] << 16) | (frame[(bit >> 3) + 1] << 8) | (((bit >> 3) + 2) < frame.Length ? frame[(bit >> 3) + 2] : 0);
            to[k] = (ushort)((three >> (24 - WordBits - (bit & 7))) & 0x3FF);
        }
    }
}
