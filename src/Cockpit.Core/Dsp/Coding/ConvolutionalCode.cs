using System.Numerics;

namespace Cockpit.Core.Dsp.Coding;

/// <summary>The convolutional code of constraint length 7, connection vectors 171 and 133 (octal).</summary>
/// <remarks>
/// Sources: CCSDS 131.0-B-2 (2011), section 3.3 (vectors, order C1 C2, inversion of the second output); the punctured pattern
/// C1 101, C2 110, sent as C1(1) C2(1) C2(2) C1(3), section 3.4 and CCSDS 130.1-G (from memory).
/// The section leaves out the inversion with punctured codes (from memory); transmitters with it exist, so it is a choice here.
/// </remarks>
public static class ConvolutionalCode
{
    /// <summary>Bits that decide one pair of coded bits.</summary>
    public const int ConstraintLength = 7;

    /// <summary>States of the encoder: the last six bits.</summary>
    public const int States = 64;

    /// <summary>The pattern of the punctured code repeats after so many bits.</summary>
    public const int PunctureBits = 3;

    // The vectors are written with the newest bit first; the register here holds it in its lowest place.
    private const uint FirstTaps = 0b1001111;
    private const uint SecondTaps = 0b1101101;

    /// <summary>The first coded bit.</summary>
    /// <param name="register">The last seven bits, the newest lowest.</param>
    public static int First(uint register) => BitOperations.PopCount(register & FirstTaps) & 1;

    /// <summary>The second coded bit, before any inversion.</summary>
    /// <param name="register">The last seven bits, the newest lowest.</param>
    public static int Second(uint register) => BitOperations.PopCount(register & SecondTaps) & 1;

    /// <summary>Whether the first coded bit of a bit is sent.</summary>
    /// <param name="rate">How much is sent.</param>
    /// <param name="position">Place of the bit in the pattern, 0 to 2.</param>
    public static bool FirstSent(CodeRate rate, int position) => rate == CodeRate.Half || position != 1;

    /// <summary>Whether the second coded bit of a bit is sent.</summary>
    /// <param name="rate">How much is sent.</param>
    /// <param name="position">Place of the bit in the pattern, 0 to 2.</param>
    public static bool SecondSent(CodeRate rate, int position) => rate == CodeRate.Half || position != 2;

    /// <summary>Coded bits sent before a bit, counted from the start of the pattern.</summary>
    /// <param name="rate">How much is sent.</param>
    /// <param name="bit">Number of the bit, 0 = the first of a pattern.</param>
    public static long SentBefore(CodeRate rate, long bit)
    {
        if (rate == CodeRate.Half)
        {
            return 2 * bit;
        }

        (long patterns, long rest) = Math.DivRem(bit, PunctureBits);
        return (4 * patterns) + (rest == 0 ? 0 : rest + 1);
    }
}
