namespace Cockpit.Core.Dsp.Coding;

/// <summary>The attached sync marker and the frame that follows on it.</summary>
/// <remarks>Source: CCSDS 131.0-B-2 (2011), section 8.2 (1ACFFC1D for convolutional and Reed-Solomon codes).</remarks>
public static class SyncMarker
{
    /// <summary>The marker, first bit highest.</summary>
    public const uint Word = 0x1ACFFC1D;

    /// <summary>Bits of the marker.</summary>
    public const int Bits = 32;

    /// <summary>Octets of marker and frame together.</summary>
    public const int FrameOctets = 1024;

    /// <summary>Bits of marker and frame together.</summary>
    public const int FrameBits = FrameOctets * 8;

    /// <summary>Octets of the frame after its marker: four codewords, interleaved.</summary>
    public const int CodeblockOctets = FrameOctets - (Bits / 8);

    /// <summary>Bit of the marker.</summary>
    /// <param name="index">0 = the first sent.</param>
    public static int Bit(int index) => (int)(Word >> (Bits - 1 - index)) & 1;
}
