namespace Cockpit.Core.Dsp.Coding;

/// <summary>The Reed-Solomon code (255, 223) on elements in the usual basis.</summary>
/// <remarks>Source: CCSDS 131.0-B-2 (2011), section 4.3: roots α^(11 j), j = 112 to 143.</remarks>
public sealed class ReedSolomon
{
    /// <summary>Symbols of a codeword.</summary>
    public const int Length = 255;

    /// <summary>Symbols of it that carry information.</summary>
    public const int InformationLength = 223;

    /// <summary>Symbols in error that can be corrected.</summary>
    public const int Correctable = ParityLength / 2;

    private const int ParityLength = Length - InformationLength;
    private const int Step = 11;
    private const int FirstRoot = 112;

    private static readonly byte[] RootProducts = MakeRootProducts();
    private static readonly byte[] Generator = MakeGenerator();

    private readonly byte[] _syndromes = new byte[ParityLength];
    private readonly byte[] _locator = new byte[ParityLength + 1];
    private readonly byte[] _previous = new byte[ParityLength + 1];
    private readonly byte[] _scratch = new byte[ParityLength + 1];

    /// <summary>Writes the parity symbols behind the information.</summary>
    /// <param name="codeword">255 elements, the first 223 given; the first sent is the highest power.</param>
    public static void Encode(Span<byte> codeword)
    {
        Span<byte> parity = codeword[InformationLength..Length];
        parity.Clear();
        for (int i = 0; i < InformationLength; i++)
        {
            byte feedback = (byte)(codeword[i] ^ parity[0]);
            for (int k = 0; k < ParityLength - 1; k++)
            {
                parity[k] = (byte)(parity[k + 1] ^ Gf256.Multiply(feedback, Generator[k + 1]));
            }

            parity[^1] = Gf256.Multiply(feedback, Generator[ParityLength]);
        }
    }

    /// <summary>How many symbols of a codeword are wrong.</summary>
    /// <param name="codeword">255 elements.</param>
    /// <returns>0 to 16; null when it cannot be corrected.</returns>
    /// <remarks>Syndromes, the shortest register that makes them (J. Massey, IEEE Trans. Inf. Theory 15 (1969), 122), and a count of its roots: no symbol is changed. Allocates nothing.</remarks>
    public int? CountErrors(ReadOnlySpan<byte> codeword)
    {
        if (Syndromes(codeword))
        {
            return 0;
        }

        int degree = FindLocator();
        return degree <= Correctable && Roots(degree) == degree ? degree : null;
    }

    // True when all are zero.
    private bool Syndromes(ReadOnlySpan<byte> codeword)
    {
        Span<byte> sums = _syndromes;
        sums.Clear();
        foreach (byte symbol in codeword[..Length])
        {
            for (int j = 0; j < ParityLength; j++)
            {
                sums[j] = (byte)(RootProducts[(j << 8) | sums[j]] ^ symbol);
            }
        }

        return !sums.ContainsAnyExcept((byte)0);
    }

    private int FindLocator()
    {
        Span<byte> locator = _locator;
        Span<byte> previous = _previous;
        locator.Clear();
        previous.Clear();
        locator[0] = previous[0] = 1;
        int degree = 0;
        int shift = 1;
        byte last = 1;
        for (int n = 0; n < ParityLength; n++)
        {
            byte discrepancy = _syndromes[n];
            for (int i = 1; i <= degree; i++)
            {
                discrepancy ^= Gf256.Multiply(locator[i], _syndromes[n - i]);
            }

            if (discrepancy == 0)
            {
                shift++;
                continue;
            }

            bool longer = 2 * degree <= n;
            locator.CopyTo(_scratch);
            byte factor = Gf256.Divide(discrepancy, last);
            for (int i = 0; i + shift <= ParityLength; i++)
            {
                locator[i + shift] ^= Gf256.Multiply(factor, previous[i]);
            }

            if (longer)
            {
                degree = n + 1 - degree;
                _scratch.CopyTo(previous);
                last = discrepancy;
                shift = 0;
            }

            shift++;
        }

        return degree;
    }

    private int Roots(int degree)
    {
        int found = 0;
        for (int place = 0; place < Length; place++)
        {
            byte x = Gf256.Power(Step * place);
            byte sum = 0;
            for (int i = degree; i >= 0; i--)
            {
                sum = (byte)(Gf256.Multiply(sum, x) ^ _locator[i]);
            }

            found += sum == 0 ? 1 : 0;
        }

        return found;
    }

    private static byte Root(int j) => Gf256.Power(Step * (FirstRoot + j));

    // One table of 256 products for each root: a step of a syndrome is one look-up.
    private static byte[] MakeRootProducts()
    {
        byte[] products = new byte[ParityLength << 8];
        for (int i = 0; i < products.Length; i++)
        {
            products[i] = Gf256.Multiply((byte)i, Root(i >> 8));
        }

        return products;
    }

    // The highest power first; its coefficient is one.
    private static byte[] MakeGenerator()
    {
        byte[] polynomial = new byte[ParityLength + 1];
        polynomial[0] = 1;
        for (int j = 0; j < ParityLength; j++)
        {
            for (int i = j + 1; i > 0; i--)
            {
                polynomial[i] ^= Gf256.Multiply(polynomial[i - 1], Root(j));
            }
        }

        return polynomial;
    }
}
