using System.Text;
using Cockpit.Core.Chance;
using Cockpit.Core.Formats;
using Cockpit.Core.Formats.Signal;
using Cockpit.Core.Signal;
using CsCheck;

namespace Cockpit.Tests.Formats;

public sealed class SignalLineTests
{
    private static readonly DateTimeOffset Noon = new(2026, 11, 25, 12, 0, 0, TimeSpan.Zero);

    public static TheoryData<string, SignalSample> GoodLines => new()
    {
        { "7.4", new() { LevelDb = 7.4 } },
        { "-61.2", new() { LevelDb = -61.2 } },
        { "+3", new() { LevelDb = 3 } },
        { "5.", new() { LevelDb = 5 } },
        { "  -61.2 \t", new() { LevelDb = -61.2 } },
        { "-61.2\r", new() { LevelDb = -61.2 } },
        { "-6.12e1", new() { LevelDb = -61.2 } },
        { "-6.12E+01dB", new() { LevelDb = -61.2 } },
        { "-61.2 dB", new() { LevelDb = -61.2 } },
        { "-61.2dBm", new() { LevelDb = -61.2 } },
        { "-61.2 dBFS", new() { LevelDb = -61.2 } },
        { "61.2\tdBHz", new() { LevelDb = 61.2 } },
        { "-61.2 DBM", new() { LevelDb = -61.2 } },
        { "250", new() { LevelDb = 250 } },
        { "-250", new() { LevelDb = -250 } },
        { "\uFEFF7.4", new() { LevelDb = 7.4 } },
        { "snr=7.4", new() { SnrDb = 7.4 } },
        { "snr=7.4 level=-61.2 lock=1 f=1702512000", new() { SnrDb = 7.4, LevelDb = -61.2, Locked = true } },
        { "snr=7.4dB  level=-61.2dBm\tcn0=68dBHz", new() { SnrDb = 7.4, LevelDb = -61.2, Cn0DbHz = 68 } },
        { "lock=false frames=120 ber=1e-3 clip=0.02 df=-1250.5", new() { Locked = false, Frames = 120, BitErrorRatio = 1e-3, Clipped = 0.02, OffsetHz = -1250.5 } },
        { "lock=true", new() { Locked = true } },
        { "x-y.z_1=anything,even,this level=1", new() { LevelDb = 1 } },
        { "t=2026-11-25T12:00:00Z snr=1", new() { Utc = Noon, SnrDb = 1 } },
        { "t=2026-11-25T12:00 snr=1", new() { Utc = Noon, SnrDb = 1 } },
        { "t=2026-11-25T14:00:00+02:00 snr=1", new() { Utc = Noon, SnrDb = 1 } },
        { "t=2026-11-25T11:59:59.99999995-00 snr=1", new() { Utc = Noon.AddTicks(-1), SnrDb = 1 } },
        { "t=1795608000 snr=1", new() { Utc = Noon, SnrDb = 1 } },
        { "t=1795608000.0000001 snr=1", new() { Utc = Noon.AddTicks(1), SnrDb = 1 } },
        { """{"snr":7.4}""", new() { SnrDb = 7.4 } },
        { """ { "level" : -61.2 , "lock" : true, "more" : { "snr": [1, {"t": 2}] } } """, new() { LevelDb = -61.2, Locked = true } },
        { """{"t":1795608000,"lock":0,"frames":12.0,"snr":null,"cn0":6.8e1}""", new() { Utc = Noon, Locked = false, Frames = 12, Cn0DbHz = 68 } },
        { """{"t":"2026-11-25T12:00:00Z","\u0073nr":1}""", new() { Utc = Noon, SnrDb = 1 } },
    };

    public static TheoryData<string, int, string> BadLines => new()
    {
        { "-61,2", 4, "decimal comma; write numbers with a point, and separate pairs by spaces" },
        { "nan", 1, "the value is not a number (nan or infinite); leave the key out when there is no value" },
        { "-Infinity", 1, "the value is not a number (nan or infinite); leave the key out when there is no value" },
        { "snr=NaN", 5, "the value is not a number (nan or infinite); leave the key out when there is no value" },
        { "snr=-inf", 5, "the value is not a number (nan or infinite); leave the key out when there is no value" },
        { "250.1", 1, "level is 250.1; expected -250 to 250 dB" },
        { "  -251", 3, "level is -251; expected -250 to 250 dB" },
        { "1e999", 1, "level is Infinity; expected -250 to 250 dB" },
        { "level=1 cn0=300", 13, "cn0 is 300; expected -250 to 250 dB-Hz" },
        { "df=1e10", 4, "df is 10000000000; expected -1e9 to 1e9 Hz" },
        { "lock=2", 6, "lock is 2; expected 0, 1, true or false" },
        { "frames=-1", 8, "frames is -1; expected a whole number, not negative" },
        { "frames=1.5", 8, "frames is 1.5; expected a whole number, not negative" },
        { "ber=1.01", 5, "ber is 1.01; expected a number from 0 to 1" },
        { "clip=-0.1", 6, "clip is -0.1; expected a number from 0 to 1" },
        { "-", 2, "expected a digit, found the end" },
        { ".5", 1, "expected a digit, found \".5\"" },
        { "+x", 2, "expected a digit, found \"x\"" },
        { "5e", 3, "expected a digit of the exponent, found the end" },
        { "5e+q", 4, "expected a digit of the exponent, found \"q\"" },
        { "7.4 volts", 5, "expected the end of the number, found \"volts\"" },
        { "7.4 -61.2", 5, "expected the end of the number, found \"-61.2\"" },
        { "df=12dB", 6, "expected the end of the number, found \"dB\"" },
        { "snr=1 snr=2", 11, "snr is given twice in one record" },
        { "=7", 1, "expected a number, key=value or a JSON object, found \"=7\"" },
        { "hello", 6, "expected a number, key=value or a JSON object, found \"hello\"" },
        { "\u0003\u0004", 1, "expected a number, key=value or a JSON object, found a byte that is not text (0x03)" },
        { "t=1795608000", 1, "no known value in this record; give at least one of level, snr, cn0, df, lock, frames, ber, clip, key (lower case)" },
        { "t=yesterday snr=1", 3, "t is \"yesterday\"; expected UTC as 2026-11-25T10:15:00Z or Unix seconds, years 1970 to 2200" },
        { "t=2026-02-29T00:00:00Z snr=1", 3, "t is \"2026-02-29T00:00:00Z\"; expected UTC as 2026-11-25T10:15:00Z or Unix seconds, years 1970 to 2200" },
        { "{}", 1, "no known value in this record; give at least one of level, snr, cn0, df, lock, frames, ber, clip, key (lower case)" },
        { """{"snr":7.4""", 11, "not one complete JSON object, found the end" },
        { """{"snr":7.4} x""", 13, "not one complete JSON object, found \"x\"" },
        { """{"snr":7,4}""", 10, "not one complete JSON object, found \"4}\"" },
        { """{"snr":1e999}""", 8, "snr is Infinity; expected -250 to 250 dB" },
    };

    [Theory]
    [MemberData(nameof(GoodLines))]
    public void A_good_line_gives_its_values(string text, SignalSample expected) => Assert.Equal(expected, Read(text).Sample);

    [Theory]
    [InlineData("")]
    [InlineData("   \t")]
    [InlineData("# 7.4")]
    [InlineData("  #Grüße")]
    public void Comments_and_empty_lines_are_nothing(string text) => Assert.True(Read(text).IsNothing);

    [Theory]
    [MemberData(nameof(BadLines))]
    public void A_bad_line_says_what_and_where(string text, int column, string message) =>
        Assert.Equal(new ParseError("signal", 3, column, message), Read(text).Error);

    [Fact]
    public void A_line_of_4096_bytes_is_read_and_one_byte_more_is_not()
    {
        Assert.NotNull(Read("snr=1" + new string(' ', SignalLine.LongestLine - 5)).Sample);
        ParseError? error = Read("snr=1" + new string(' ', SignalLine.LongestLine - 4)).Error;
        Assert.Equal(new ParseError("signal", 3, 4097, "the line is longer than 4096 bytes; send one short record a line"), error);
    }

    [Theory]
    [InlineData("1e99999999999999999999")]
    [InlineData("-1e2147483648")]
    [InlineData("snr=1e99999999999999999999")]
    [InlineData("99999999999999999999999999999999999999999999999999999999999999999999999999999999999999999999")]
    public void Endless_numbers_are_rejected(string text) => Assert.NotNull(Read(text).Error);

    [Fact]
    public void Digits_without_end_are_read_to_the_nearest_double() =>
        Assert.Equal(0.1, Read("0.1" + new string('0', 4000) + "1").Sample?.LevelDb);

    [Fact]
    public void What_is_written_as_pairs_reads_back_exactly() =>
        Samples.Sample(sample => Read(SignalLine.Format(sample)).Sample == sample);

    [Fact]
    public void Any_number_in_range_reads_back_bit_for_bit_bare_and_in_JSON() =>
        Gen.Double[-250, 250].Sample(value =>
        {
            string text = value.ToString("R");
            return Read(text).Sample?.LevelDb == value && Read($"{{\"snr\":{text}}}").Sample?.SnrDb == value;
        });

    // 20 000 mutations of good lines: whatever comes, there is an answer, in range, and a column on the line.
    [Fact]
    public void Damaged_lines_never_throw_and_never_give_a_value_out_of_range()
    {
        Xoshiro256 chance = new(seed: 20261125);
        byte[][] seeds = [.. GoodLines.Select(row => Encoding.UTF8.GetBytes((string)row[0]))];
        int rejected = 0;
        for (int round = 0; round < 20_000; round++)
        {
            byte[] line = Damage(seeds[chance.NextBelow(seeds.Length)], chance);
            SignalLine read = SignalLine.Read(line, "signal");
            rejected += read.Error is null ? 0 : 1;
            Assert.InRange(read.Error?.Column ?? 1, 1, line.Length + 1);
            Assert.InRange(read.Sample?.LevelDb ?? 0, -250, 250);
            Assert.InRange(read.Sample?.SnrDb ?? 0, -250, 250);
            Assert.InRange(read.Sample?.Cn0DbHz ?? 0, -250, 250);
            Assert.InRange(read.Sample?.BitErrorRatio ?? 0, 0, 1);
        }

        Assert.InRange(rejected, 5_000, 19_000);
    }

    private static Gen<SignalSample> Samples { get; } =
        Gen.Select(Gen.Double[-250, 250], Gen.Double[0, 1], Gen.Long[0, 1L << 53], Gen.Long[0, 6_000_000_000_000_000], Gen.Int[1, 255], (db, ratio, count, ticks, keys) => new SignalSample
        {
            Utc = (keys & 1) == 0 ? null : Noon.AddTicks(ticks),
            LevelDb = (keys & 2) == 0 ? null : db,
            SnrDb = (keys & 4) == 0 ? null : -db,
            Cn0DbHz = (keys & 8) == 0 ? null : db / 3,
            OffsetHz = (keys & 16) == 0 ? null : db * 1e6,
            Locked = (keys & 32) == 0 ? null : ratio > 0.5,
            Frames = (keys & 64) == 0 ? null : count,
            BitErrorRatio = (keys & 128) == 0 ? null : ratio,
            Clipped = ratio * ratio,
        });

    private static SignalLine Read(string text) => SignalLine.Read(Encoding.UTF8.GetBytes(text), "signal", 3);

    private static byte[] Damage(byte[] seed, Xoshiro256 chance)
    {
        List<byte> line = [.. seed];
        for (int changes = 1 + chance.NextBelow(3); changes > 0; changes--)
        {
            int at = chance.NextBelow(line.Count + 1);
            byte other = (byte)chance.NextBelow(256);
            switch (chance.NextBelow(3))
            {
                case 0: line.Insert(at, other); break;
                case 1 when at < line.Count: line.RemoveAt(at); break;
                case 2 when at < line.Count: line[at] = other; break;
                default: break;
            }
        }

        return [.. line];
    }
}
