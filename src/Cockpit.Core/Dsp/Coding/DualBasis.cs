namespace Cockpit.Core.Dsp.Coding;

/// <summary>The dual basis, in which the standard sends Reed-Solomon symbols, and the way to the usual one and back.</summary>
/// <remarks>
/// Source: CCSDS 131.0-B-2 (2011), section 4.4.2: an element z is sent as the bits Tr(z β^i), β = α^117, i = 0 to 7, the first
/// highest. The matrices of section 4.3.9 follow from it and are compared in the tests.
/// </remarks>
internal static class DualBasis
{
    private static readonly byte[] ToDual = MakeToDual();
    private static readonly byte[] ToUsual = MakeToUsual();

    /// <summary>The octet as sent, of an element.</summary>
    public static byte FromUsual(byte element) => ToDual[element];

    /// <summary>The element, of an octet as sent.</summary>
    public static byte Usual(byte sent) => ToUsual[sent];

    private static byte[] MakeToDual()
    {
        byte[] table = new byte[256];
        for (int element = 0; element < table.Length; element++)
        {
            for (int i = 0; i < 8; i++)
            {
                table[element] |= (byte)(Gf256.Trace(Gf256.Multiply((byte)element, Gf256.Power(117 * i))) << (7 - i));
            }
        }

        return table;
    }

    private static byte[] MakeToUsual()
    {
        byte[] table = new byte[256];
        for (int element = 0; element < table.Length; element++)
        {
            table[ToDual[element]] = (byte)element;
        }

        return table;
    }
}
