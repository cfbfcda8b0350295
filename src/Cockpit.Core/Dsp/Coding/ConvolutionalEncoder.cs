namespace Cockpit.Core.Dsp.Coding;

/// <summary>Turns bits into coded bits; runs on without end, as a transmitter does.</summary>
/// <remarks>NRZ-M stands at its input: a one changes the level, a zero keeps it (CCSDS 131.0-B-2, 3.3.3).</remarks>
public sealed class ConvolutionalEncoder
{
    private readonly TransmitVariant _variant;
    private uint _register;
    private int _position;
    private uint _level;

    /// <summary>An encoder at the start of the pattern, all bits before it zero.</summary>
    /// <param name="variant">What is sent, and how.</param>
    public ConvolutionalEncoder(TransmitVariant variant) => _variant = variant;

    /// <summary>Encodes one bit.</summary>
    /// <param name="bit">0 or 1.</param>
    /// <param name="coded">Receives the coded bits that are sent, 0 or 1 each; at least two long.</param>
    /// <returns>How many were written, 1 or 2.</returns>
    public int Encode(int bit, Span<byte> coded)
    {
        _level = _variant.Differential ? _level ^ (uint)bit : (uint)bit;
        _register = ((_register << 1) | _level) & 0x7F;
        int count = 0;
        if (ConvolutionalCode.FirstSent(_variant.Rate, _position))
        {
            coded[count++] = (byte)ConvolutionalCode.First(_register);
        }

        if (ConvolutionalCode.SecondSent(_variant.Rate, _position))
        {
            coded[count++] = (byte)(ConvolutionalCode.Second(_register) ^ (_variant.InvertSecond ? 1 : 0));
        }

        _position = (_position + 1) % ConvolutionalCode.PunctureBits;
        return count;
    }
}
