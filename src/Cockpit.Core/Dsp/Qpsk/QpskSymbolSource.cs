using Cockpit.Core.Dsp.Coding;
using Cockpit.Core.Chance;

namespace Cockpit.Core.Dsp.Qpsk;

/// <summary>The symbols of an endless run of frames with seeded contents: what an ideal transmitter sends.</summary>
/// <remarks>First coded bit on I, second on Q, 0 = +1. The first frame starts with the first symbol.</remarks>
public sealed class QpskSymbolSource
{
    private readonly QpskSending _sending;
    private readonly ConvolutionalEncoder _encoder;
    private readonly Xoshiro256 _random;
    private readonly byte[] _frame = new byte[SyncMarker.FrameOctets];
    private readonly byte[] _coded = new byte[4];
    private int _bit = SyncMarker.FrameBits;
    private int _waiting;

    /// <summary>A transmitter.</summary>
    /// <param name="sending">How it sends.</param>
    /// <param name="random">Where the contents come from.</param>
    public QpskSymbolSource(QpskSending sending, Xoshiro256 random)
    {
        _sending = sending;
        _random = random;
        _encoder = new ConvolutionalEncoder(sending.Coding);
    }

    /// <summary>Number of the symbol with the first coded bit of a frame.</summary>
    /// <param name="rate">How much of the code is sent.</param>
    /// <param name="frame">Number of the frame, 0 = the first.</param>
    public static long StartOf(CodeRate rate, long frame) => ConvolutionalCode.SentBefore(rate, frame * SyncMarker.FrameBits) / 2;

    /// <summary>The next symbol, of unit power.</summary>
    public (float I, float Q) Next()
    {
        while (_waiting < 2)
        {
            _waiting += _encoder.Encode(NextBit(), _coded.AsSpan(_waiting));
        }

        (float i, float q) = (Level(_coded[0]), Level(_coded[1]));
        _coded.AsSpan(2).CopyTo(_coded);
        _waiting -= 2;
        return Turn(_sending.Exchanged ? (q, i) : (i, q), _sending.QuarterTurns);
    }

    private static float Level(byte coded) => coded == 0 ? 0.70710678f : -0.70710678f;

    private static (float I, float Q) Turn((float I, float Q) symbol, int quarters) => (quarters & 3) switch
    {
        1 => (-symbol.Q, symbol.I),
        2 => (-symbol.I, -symbol.Q),
        3 => (symbol.Q, -symbol.I),
        _ => symbol,
    };

    private int NextBit()
    {
        if (_bit == SyncMarker.FrameBits)
        {
            Fill();
            _bit = 0;
        }

        int bit = (_frame[_bit / 8] >> (7 - (_bit % 8))) & 1;
        _bit++;
        return bit;
    }

    private void Fill()
    {
        System.Buffers.Binary.BinaryPrimitives.WriteUInt32BigEndian(_frame, SyncMarker.Word);
        Span<byte> block = _frame.AsSpan(SyncMarker.Bits / 8);
        for (int k = 0; k < Codeblock.InformationOctets; k++)
        {
            block[k] = (byte)_random.NextBits();
        }

        Codeblock.Encode(block, _sending.Dual);
    }
}
