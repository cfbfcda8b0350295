namespace Cockpit.Core.Dsp.Coding;

/// <summary>What stands between two markers: four interleaved Reed-Solomon codewords, randomized.</summary>
/// <remarks>Source: CCSDS 131.0-B-2 (2011), sections 4.4.1 (octet k belongs to codeword k mod 4) and 9.</remarks>
public sealed class Codeblock
{
    /// <summary>Codewords side by side.</summary>
    public const int Interleave = 4;

    /// <summary>Octets that carry information.</summary>
    public const int InformationOctets = Interleave * ReedSolomon.InformationLength;

    private readonly ReedSolomon _code = new();
    private readonly byte[] _octets = new byte[SyncMarker.CodeblockOctets];
    private readonly byte[] _codeword = new byte[ReedSolomon.Length];

    /// <summary>Fills in the parity and randomizes.</summary>
    /// <param name="octets">1020 octets; the first 892 are given.</param>
    /// <param name="dual">Whether symbols are sent in the dual basis, as the standard says.</param>
    public static void Encode(Span<byte> octets, bool dual)
    {
        Span<byte> codeword = stackalloc byte[ReedSolomon.Length];
        for (int word = 0; word < Interleave; word++)
        {
            for (int i = 0; i < ReedSolomon.InformationLength; i++)
            {
                byte sent = octets[(i * Interleave) + word];
                codeword[i] = dual ? DualBasis.Usual(sent) : sent;
            }

            ReedSolomon.Encode(codeword);
            for (int i = ReedSolomon.InformationLength; i < ReedSolomon.Length; i++)
            {
                octets[(i * Interleave) + word] = dual ? DualBasis.FromUsual(codeword[i]) : codeword[i];
            }
        }

        Randomizer.Apply(octets);
    }

    /// <summary>How many symbols of a received codeblock are wrong.</summary>
    /// <param name="received">1020 octets as decoded, still randomized.</param>
    /// <param name="dual">Whether symbols are sent in the dual basis.</param>
    /// <returns>The sum over the four codewords; null when one of them cannot be corrected. Allocates nothing.</returns>
    public int? CountErrors(ReadOnlySpan<byte> received, bool dual)
    {
        received[..SyncMarker.CodeblockOctets].CopyTo(_octets);
        Randomizer.Apply(_octets);
        int sum = 0;
        for (int word = 0; word < Interleave; word++)
        {
            for (int i = 0; i < ReedSolomon.Length; i++)
            {
                byte sent = _octets[(i * Interleave) + word];
                _codeword[i] = dual ? DualBasis.Usual(sent) : sent;
            }

            if (_code.CountErrors(_codeword) is not { } errors)
            {
                return null;
            }

            sum += errors;
        }

        return sum;
    }
}
