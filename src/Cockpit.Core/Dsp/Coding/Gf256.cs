namespace Cockpit.Core.Dsp.Coding;

/// <summary>Arithmetic in GF(256) with x^8 + x^7 + x^2 + x + 1; an element is the octet of its coefficients, the highest power first.</summary>
/// <remarks>Source: CCSDS 131.0-B-2 (2011), section 4.3.</remarks>
internal static class Gf256
{
    private const int Polynomial = 0x187;
    private const int Order = 255;
    private static readonly byte[] Powers = MakePowers();
    private static readonly byte[] Logarithms = MakeLogarithms();

    /// <summary>A power of the primitive element.</summary>
    /// <param name="exponent">0 or more.</param>
    public static byte Power(int exponent) => Powers[exponent % Order];

    /// <summary>The product of two elements.</summary>
    public static byte Multiply(byte a, byte b) => a == 0 || b == 0 ? (byte)0 : Powers[Logarithms[a] + Logarithms[b]];

    /// <summary>The quotient of two elements.</summary>
    /// <param name="a">Any element.</param>
    /// <param name="b">Any element but zero.</param>
    public static byte Divide(byte a, byte b) => a == 0 ? (byte)0 : Powers[Logarithms[a] + Order - Logarithms[b]];

    /// <summary>The trace of an element: the sum of its conjugates, 0 or 1.</summary>
    public static int Trace(byte a)
    {
        byte sum = 0;
        byte conjugate = a;
        for (int k = 0; k < 8; k++)
        {
            sum ^= conjugate;
            conjugate = Multiply(conjugate, conjugate);
        }

        return sum;
    }

    // Twice the length, so that a sum of two logarithms needs no remainder.
    private static byte[] MakePowers()
    {
        byte[] powers = new byte[2 * Order];
        int value = 1;
        for (int i = 0; i < powers.Length; i++)
        {
            powers[i] = (byte)value;
            value <<= 1;
            value ^= value > 0xFF ? Polynomial : 0;
        }

        return powers;
    }

    private static byte[] MakeLogarithms()
    {
        byte[] logarithms = new byte[256];
        for (int i = 0; i < Order; i++)
        {
            logarithms[Powers[i]] = (byte)i;
        }

        return logarithms;
    }
}
