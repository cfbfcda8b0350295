using Cockpit.Core.Dsp.Coding;

namespace Cockpit.Core.Dsp.Qpsk;

/// <summary>One symbol's place where the marker fixes a coded bit.</summary>
/// <param name="Offset">Symbols after the one with the marker's first coded bit.</param>
/// <param name="Quadrature">Whether the bit is on Q.</param>
/// <param name="Second">Whether it is of the second generator.</param>
/// <param name="Sign">+1 for a zero, without inversion.</param>
internal readonly record struct KnownBit(int Offset, bool Quadrature, bool Second, float Sign);

/// <summary>What the sync marker looks like after the convolutional encoder: the coded bits that do not depend on what is around it.</summary>
/// <remarks>
/// The encoder remembers six bits, so 26 of the 32 pairs are fixed; with NRZ-M a marker is fixed but for its sign, and one pair more.
/// With code 3/4 three frames make whole patterns: the marker starts at the places 0, 2, 1 of the pattern in turn, 104 fixed bits in three frames.
/// </remarks>
internal sealed class MarkerTemplate
{
    private static readonly MarkerTemplate[] All =
    [
        .. from rate in new[] { CodeRate.Half, CodeRate.ThreeQuarters }
           from differential in new[] { false, true }
           from frame in new[] { 0, 1, 2 }
           select Make(rate, differential, frame),
    ];

    private readonly KnownBit[] _bits;

    private MarkerTemplate(KnownBit[] bits)
    {
        _bits = bits;
        Length = bits.Max(bit => bit.Offset) + 1;
    }

    /// <summary>The fixed coded bits.</summary>
    public ReadOnlySpan<KnownBit> Bits => _bits;

    /// <summary>Symbols that it reaches over.</summary>
    public int Length { get; }

    /// <summary>Frames until everything repeats.</summary>
    /// <param name="rate">How much of the code is sent.</param>
    public static int FramesInCycle(CodeRate rate) => rate == CodeRate.Half ? 1 : 3;

    /// <summary>Symbols until everything repeats.</summary>
    /// <param name="rate">How much of the code is sent.</param>
    public static int SymbolsInCycle(CodeRate rate) => rate == CodeRate.Half ? SyncMarker.FrameBits : 2 * SyncMarker.FrameBits;

    /// <summary>Mean symbols of a frame.</summary>
    /// <param name="rate">How much of the code is sent.</param>
    public static double SymbolsPerFrame(CodeRate rate) => (double)SymbolsInCycle(rate) / FramesInCycle(rate);

    /// <summary>Symbols from the start of a cycle to the symbol with the first coded bit of a frame.</summary>
    /// <param name="rate">How much of the code is sent.</param>
    /// <param name="frame">Number of the frame in the cycle.</param>
    public static int StartOf(CodeRate rate, int frame) => (int)(ConvolutionalCode.SentBefore(rate, (long)frame * SyncMarker.FrameBits) / 2);

    /// <summary>The template of a frame.</summary>
    /// <param name="rate">How much of the code is sent.</param>
    /// <param name="differential">Whether NRZ-M was applied.</param>
    /// <param name="frame">Number of the frame in the cycle.</param>
    public static MarkerTemplate Of(CodeRate rate, bool differential, int frame) =>
        All[((((int)rate * 2) + (differential ? 1 : 0)) * 3) + frame];

    private static MarkerTemplate Make(CodeRate rate, bool differential, int frame)
    {
        long firstBit = (long)frame * SyncMarker.FrameBits;
        long firstSymbol = ConvolutionalCode.SentBefore(rate, firstBit) / 2;
        var bits = new List<KnownBit>();
        uint register = 0;
        uint level = 0;
        for (int i = 0; i < SyncMarker.Bits; i++)
        {
            level = differential ? level ^ (uint)SyncMarker.Bit(i) : (uint)SyncMarker.Bit(i);
            register = (register << 1) | level;

            // The level before the marker counts as the zero that stands in the register.
            if (i < ConvolutionalCode.ConstraintLength - (differential ? 2 : 1))
            {
                continue;
            }

            int position = (int)((firstBit + i) % ConvolutionalCode.PunctureBits);
            long sent = ConvolutionalCode.SentBefore(rate, firstBit + i);
            if (ConvolutionalCode.FirstSent(rate, position))
            {
                Add(ConvolutionalCode.First(register & 0x7F), second: false);
            }

            if (ConvolutionalCode.SecondSent(rate, position))
            {
                Add(ConvolutionalCode.Second(register & 0x7F), second: true);
            }

            void Add(int coded, bool second) =>
                bits.Add(new KnownBit((int)((sent / 2) - firstSymbol), sent++ % 2 == 1, second, 1 - (2 * coded)));
        }

        return new MarkerTemplate([.. bits]);
    }
}
