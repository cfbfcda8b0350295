using Cockpit.Core.Formats;
using Cockpit.Core.Formats.Elements;
using Cockpit.Core.Orbit;

namespace Cockpit.Tests.Formats;

public sealed class TleReaderTests
{
    private const string Name = "MARLSNIPE 1";
    private const string One = "1 99101U 26010A   26328.24903196  .00000147  00000-0  14012-3 0  4048";
    private const string Two = "2 99101  98.5970  30.2891 0012686 278.7665 108.0468 14.27965384291364";

    private static ElementFile Read(string text, ElementReading? how = null) =>
        ElementSets.Read("sky.tle", new StringReader(text), how);

    [Fact]
    public void Every_field_of_a_set_is_read()
    {
        ElementSet set = Assert.Single(Read($"{Name}\n{One}\n{Two}\n").Sets);
        Assert.Equal(Name, set.Name);
        Assert.Equal(99101, set.CatalogNumber);
        Assert.Equal('U', set.Classification);
        Assert.Equal("2026-010A", set.InternationalDesignator);
        Assert.Equal(new DateTimeOffset(2026, 11, 24, 5, 58, 36, TimeSpan.Zero).AddTicks(3613440), set.EpochUtc);
        Assert.Equal(0.24903196, set.Epoch.Fraction);
        Assert.Equal(0.00000147, set.MeanMotionDotRevPerDay2);
        Assert.Equal(0.0, set.MeanMotionDdotRevPerDay3);
        Assert.Equal(0.14012e-3, set.BStar);
        Assert.Equal(404, set.ElementSetNumber);
        Assert.Equal(98.5970, set.Inclination.Degrees, 1e-12);
        Assert.Equal(30.2891, set.RightAscension.Degrees, 1e-12);
        Assert.Equal(0.0012686, set.Eccentricity);
        Assert.Equal(278.7665, set.ArgumentOfPerigee.Degrees, 1e-12);
        Assert.Equal(108.0468, set.MeanAnomaly.Degrees, 1e-12);
        Assert.Equal(14.27965384, set.MeanMotionRevPerDay);
        Assert.Equal(29136, set.RevolutionNumber);
    }

    [Theory]
    [InlineData($"{One}\n{Two}", "99101")]
    [InlineData($"0 {Name}\n{One}\n{Two}\n", Name)]
    [InlineData($"{Name}   \r\n{One}\r\n{Two}\r\n", Name)]
    [InlineData($"# from the club\n\n{Name}\n# yesterday\n{One}  \n{Two}\n\n", Name)]
    [InlineData($"\uFEFF{Name}\n{One}\n{Two}\n", Name)]
    [InlineData($"1 HOPEFUL\n{One}\n{Two}\n", "1 HOPEFUL")]
    public void Two_and_three_line_sets_are_read_in_every_dress(string text, string name)
    {
        ElementFile file = Read(text);
        Assert.Empty(file.Errors);
        Assert.Equal(name, Assert.Single(file.Sets).Name);
    }

    [Theory]
    [InlineData("", 0, 0, "the input is empty; expected element sets, TLE or OMM")]
    [InlineData("# nothing\n\n", 0, 0, "there is no element set in it; expected TLE or OMM")]
    [InlineData("MZ\0\u0003rubbish", 1, 3, "byte 0x00 found: this is not text; expected a file of element sets, TLE or OMM")]
    [InlineData("Dear all,\nthe pass was fine.\n", 1, 1, "\"Dear all,\" is neither line 1 or 2 of a TLE nor a name before them; expected TLE or OMM")]
    [InlineData($"{Name}\n{One}\n", 2, 1, "line 1 is not followed by its line 2; get the element set again")]
    [InlineData($"{Name}\n{Two}\n", 2, 1, "line 2 has no line 1 before it; get the element set again")]
    [InlineData($"{Name}\n{Two}\n{One}\n", 2, 1, "line 2 stands before line 1; put them in the order 1, 2")]
    [InlineData($"{One}7\n{Two}", 1, 70, "line 1 is too long: 70 characters, expected 69; get the element set again")]
    [InlineData("1 99101U 26010A 26328.24903196 .00000147 00000-0 14012-3 0 4048\n" + Two, 1, 64, "line 1 is short: 63 characters, expected 69; get the element set again")]
    [InlineData("1 99101U 26010A   26328.24903196  .00000147  00000-0  14012-3 0  4041\n" + Two, 1, 69, "the checksum of line 1 is '1', expected 8; a character was changed, get the element set again")]
    [InlineData("1 99101U 26010A  26328.249031960  .00000147  00000-0  14012-3 0  4048\n" + Two, 1, 18, "'2' stands where a blank is expected; the columns are shifted, get the element set again")]
    [InlineData("1 I9101U 26010A   26328.24903196  .00000147  00000-0  14012-3 0  4049\n" + Two, 1, 3, "catalogue number is \"I9101\", expected five digits, or a letter but I and O and four digits")]
    [InlineData("1 99101U 26010A   26328.24903196  .0000x147  00000-0  14012-3 0  4048\n" + Two, 1, 34, "first derivative of the mean motion is \".0000x147\", expected a number in columns 34 to 43")]
    [InlineData("1 99101U 26010A   26328.24903196  .00000147  00000-0  14x12-3 0  4048\n" + Two, 1, 54, "drag term B* is \" 14x12-3\", expected sign, five digits, signed exponent in columns 54 to 61, such as \" 12345-4\"")]
    public void A_mistake_is_told_with_line_column_and_sentence(string text, int line, int column, string message)
    {
        ElementFile file = Read(text);
        Assert.Empty(file.Sets);
        Assert.Equal(new ParseError("sky.tle", line, column, message), Assert.Single(file.Errors));
    }

    [Fact]
    public void Good_sets_beside_bad_ones_are_used()
    {
        ElementFile file = Read($"{Name}\n{One}1\n{Two}\nGOOD\n{One}\n{Two}\nLOST\n{One}\nGOOD TOO\n{One}\n{Two}\n");
        Assert.Equal(["GOOD", "GOOD TOO"], file.Sets.Select(s => s.Name), StringComparer.Ordinal);
        Assert.Equal([2, 8], file.Errors.Select(e => e.Line));
    }

    [Fact]
    public void Wrong_checksums_pass_only_where_that_is_asked_for()
    {
        string text = $"{One[..68]}1\n{Two}\n";
        Assert.Single(Read(text).Errors);
        Assert.Single(Read(text, new ElementReading(AcceptWrongChecksums: true)).Sets);
    }

    // Letter scheme for catalogue numbers above 99999; the table of reference values also goes through the reader (OrbitTables).
    [Theory]
    [InlineData("A0000", 100000)]
    [InlineData("J2931", 182931)]
    [InlineData("Z9999", 339999)]
    [InlineData("05123", 5123)]
    public void Catalogue_numbers_with_a_letter_are_read_and_written(string text, int number)
    {
        Assert.True(TleCodes.TryCatalogNumber(text, out int read));
        Assert.Equal(number, read);
        Assert.Equal(text, TleCodes.WriteCatalogNumber(number));
    }

    [Fact]
    public void Thousands_of_sets_are_read_from_a_stream_of_bytes()
    {
        string text = string.Concat(Enumerable.Repeat($"{Name}\r\n{One}\r\n{Two}\r\n", 5000));
        ElementFile file = ElementSets.Read("many", new MemoryStream(System.Text.Encoding.UTF8.GetBytes(text)));
        Assert.Equal(5000, file.Sets.Length);
        Assert.Empty(file.Errors);
    }

    [Fact]
    public void A_file_above_the_limit_is_said_to_be_too_large()
    {
        using var endless = new EndlessReader();
        ElementFile file = ElementSets.Read("endless", endless, null, mostCharacters: 1_000_000);
        Assert.Equal("the input is larger than 64 MiB; split it, what was read so far is used", file.Errors[^1].Message);
        Assert.Equal(1_000_000, endless.Given);
        Assert.Equal(64 << 20, ElementFile.MostCharacters);
    }

    /// <summary>Comments without end.</summary>
    private sealed class EndlessReader : TextReader
    {
        internal long Given { get; private set; }

        public override int Peek() => '#';

        public override int Read(char[] buffer, int index, int count)
        {
            buffer.AsSpan(index, count).Fill('#');
            buffer[index + count - 1] = '\n';
            Given += count;
            return count;
        }
    }
}
