using Cockpit.Core.Chance;
using Cockpit.Core.Dsp.Coding;
using CsCheck;

namespace Cockpit.Tests.Dsp.Coding;

public sealed class CodingTests
{
    // CCSDS 131.0-B-2 (2011), section 9: the first 40 bits of the sequence.
    [Fact]
    public void The_randomizer_starts_as_the_standard_prints_it()
    {
        byte[] octets = new byte[5];
        Randomizer.Apply(octets);
        Assert.Equal([0xFF, 0x48, 0x0E, 0xC0, 0x9A], octets);
    }

    [Fact]
    public void Randomizing_twice_changes_nothing() => Gen.Byte.Array[0, 1020].Sample(octets =>
    {
        byte[] twice = [.. octets];
        Randomizer.Apply(twice);
        Randomizer.Apply(twice);
        Assert.Equal(octets, twice);
    });

    // CCSDS 131.0-B-2 (2011), section 4.3.9: row of u7 first, column of z0 first.
    [Fact]
    public void The_dual_basis_gives_both_matrices_of_the_standard()
    {
        byte[] toDual = [0b10001101, 0b11101111, 0b11101100, 0b10000110, 0b11111010, 0b10011001, 0b10101111, 0b01111011];
        byte[] toUsual = [0b11000101, 0b01000010, 0b00101110, 0b11111101, 0b11110000, 0b01111001, 0b10101100, 0b11001100];
        for (int row = 0; row < 8; row++)
        {
            Assert.Equal(toDual[row], DualBasis.FromUsual((byte)(0x80 >> row)));
            Assert.Equal(toUsual[row], DualBasis.Usual((byte)(0x80 >> row)));
        }
    }

    [Fact]
    public void Up_to_16_wrong_symbols_are_counted_exactly() => Gen.Select(Gen.ULong, Gen.Int[0, 16]).Sample((seed, wrong) =>
    {
        var random = new Xoshiro256(seed);
        byte[] codeword = Codeword(random);
        Damage(codeword, random, wrong);
        Assert.Equal(wrong, new ReedSolomon().CountErrors(codeword));
    }, iter: 200);

    // A wrong codeword passes for another one with a probability of about 1/16! (R. McEliece, L. Swanson, IEEE Trans. Inf. Theory 32 (1986), 701).
    [Fact]
    public void More_than_16_wrong_symbols_are_told_as_beyond_repair() => Gen.Select(Gen.ULong, Gen.Int[17, 60]).Sample((seed, wrong) =>
    {
        var random = new Xoshiro256(seed);
        byte[] codeword = Codeword(random);
        Damage(codeword, random, wrong);
        Assert.Null(new ReedSolomon().CountErrors(codeword));
    }, iter: 200);

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void A_codeblock_comes_back_without_errors_in_its_own_basis_only(bool dual)
    {
        byte[] octets = new byte[SyncMarker.CodeblockOctets];
        Fill(octets, new Xoshiro256(3));
        Codeblock.Encode(octets, dual);
        var block = new Codeblock();
        Assert.Equal(0, block.CountErrors(octets, dual));
        Assert.Null(block.CountErrors(octets, !dual));
        octets[100] ^= 0x55;
        octets[701] ^= 1;
        Assert.Equal(2, block.CountErrors(octets, dual));
    }

    // One 1 between zeros gives the connection vectors themselves: 1111001 and 1011011, the second inverted (CCSDS 131.0-B-2, 3.3).
    [Fact]
    public void A_single_one_gives_the_connection_vectors()
    {
        var encoder = new ConvolutionalEncoder(new TransmitVariant(CodeRate.Half, InvertSecond: true, Differential: false));
        Span<byte> coded = stackalloc byte[2];
        string first = "";
        string second = "";
        for (int i = 0; i < 7; i++)
        {
            Assert.Equal(2, encoder.Encode(i == 0 ? 1 : 0, coded));
            first += coded[0];
            second += 1 - coded[1];
        }

        Assert.Equal("1111001", first);
        Assert.Equal("1011011", second);
    }

    [Fact]
    public void Three_bits_give_four_coded_bits_in_the_order_of_the_pattern()
    {
        var all = new ConvolutionalEncoder(new TransmitVariant(CodeRate.Half, false, false));
        var some = new ConvolutionalEncoder(new TransmitVariant(CodeRate.ThreeQuarters, false, false));
        var random = new Xoshiro256(1);
        byte[] pair = new byte[2];
        byte[] kept = new byte[2];
        for (int i = 0; i < 300; i++)
        {
            int bit = random.NextBelow(2);
            all.Encode(bit, pair);
            int count = some.Encode(bit, kept);
            byte[] expected = (i % 3) switch { 0 => pair, 1 => [pair[1]], _ => [pair[0]] };
            Assert.Equal(expected, kept[..count]);
            Assert.Equal(ConvolutionalCode.SentBefore(CodeRate.ThreeQuarters, i + 1) - ConvolutionalCode.SentBefore(CodeRate.ThreeQuarters, i), count);
        }
    }

    private static byte[] Codeword(Xoshiro256 random)
    {
        byte[] codeword = new byte[ReedSolomon.Length];
        Fill(codeword, random);
        ReedSolomon.Encode(codeword);
        return codeword;
    }

    private static void Fill(Span<byte> octets, Xoshiro256 random)
    {
        foreach (ref byte octet in octets)
        {
            octet = (byte)random.NextBits();
        }
    }

    private static void Damage(Span<byte> codeword, Xoshiro256 random, int count)
    {
        var places = new HashSet<int>();
        while (places.Count < count)
        {
            int place = random.NextBelow(codeword.Length);
            if (places.Add(place))
            {
                codeword[place] ^= (byte)(1 + random.NextBelow(255));
            }
        }
    }
}
