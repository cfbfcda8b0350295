using System.Text;
using Cockpit.Core.Chance;
using Cockpit.Core.Formats.Signal;

namespace Cockpit.Tests.Formats;

/// <summary>Lines as receivers print them, in our own wording, and what is read from each; empty = nothing can be.</summary>
public sealed class FreeLineTests
{
    private const string Table = "data/lines/receivers.txt";

    private static readonly string[] Headings = [.. File.ReadLines(Path.Combine(AppContext.BaseDirectory, Table)).Where(line => line.StartsWith("## ", StringComparison.Ordinal)).Select(line => line[3..])];

    public static TheoryData<string> Styles => [.. Headings];

    [Theory]
    [MemberData(nameof(Styles))]
    public void Lines_of_a_style_give_what_they_say(string style)
    {
        bool inOrder = style.Contains("in order", StringComparison.Ordinal);
        string? columns = style.Split('?') is [_, var told] ? told : null;
        TrustedLines feed = Feed(columns);
        foreach ((string line, string expected) in LinesOf(style))
        {
            string read = Pairs((inOrder ? feed : Feed(columns)).Read(Encoding.UTF8.GetBytes(line), "signal"));
            Assert.Equal($"{line} => {expected}", $"{line} => {read}");
        }
    }

    [Fact]
    public void The_table_holds_sixty_lines_of_fifteen_styles_and_more()
    {
        Assert.InRange(Headings.Length, 15, 100);
        Assert.InRange(Headings.Sum(style => LinesOf(style).Count), 60, 1000);
    }

    [Fact]
    public void Random_bytes_never_become_a_level()
    {
        Xoshiro256 chance = new(seed: 20261126);
        var lines = new TrustedLines();
        List<byte> line = [];
        for (int n = 0; n < 4_000_000; n++)
        {
            byte next = (byte)chance.NextBits();
            if (next != (byte)'\n')
            {
                line.Add(next);
                continue;
            }

            Assert.Null(lines.Read(line.ToArray(), "signal").Sample);
            line.Clear();
        }
    }

    [Fact]
    public void Bare_numbers_count_from_the_fifth_good_line_in_a_row()
    {
        var lines = new TrustedLines();
        Assert.NotNull(lines.Read("level=7.4"u8, "signal").Sample);
        Assert.NotNull(lines.Read("7.4 dB"u8, "signal").Sample);
        Assert.True(lines.Read("7.4"u8, "signal").IsNothing);
        Assert.NotNull(lines.Read("hello"u8, "signal").Error);
        for (int k = 0; k < 4; k++)
        {
            Assert.True(lines.Read("7.4"u8, "signal").IsNothing);
            Assert.Null(lines.Told);
        }

        Assert.Equal(7.4, lines.Read("7.4"u8, "signal").Sample?.LevelDb);
        Assert.Equal("reads bare numbers as level", lines.Told);
        Assert.Equal(7.5, lines.Read("7.5"u8, "signal").Sample?.LevelDb);
        Assert.Null(lines.Told);
    }

    [Fact]
    public void After_bytes_that_are_no_text_five_good_lines_in_a_row_are_needed()
    {
        var lines = new TrustedLines();
        Assert.NotNull(lines.Read("snr=7.4"u8, "signal").Sample);
        Assert.Contains("looks like IQ samples: add ?format=", lines.Read([0x37, 0x00, 0xFF], "signal").Error?.Message, StringComparison.Ordinal);
        for (int k = 0; k < 4; k++)
        {
            Assert.True(lines.Read("snr=7.4"u8, "signal").IsNothing);
        }

        Assert.NotNull(lines.Read("hello"u8, "signal").Error);
        for (int k = 0; k < 4; k++)
        {
            Assert.True(lines.Read("snr=7.4"u8, "signal").IsNothing);
        }

        Assert.Equal(7.4, lines.Read("snr=7.4"u8, "signal").Sample?.SnrDb);
    }

    [Fact]
    public void A_feed_that_was_good_is_not_doubted_for_two_damaged_lines_but_for_three()
    {
        var lines = new TrustedLines();
        for (int k = 0; k < 5; k++)
        {
            Assert.NotNull(lines.Read("snr=7.4"u8, "signal").Sample);
        }

        lines.Read([0xFF], "signal");
        lines.Read([0xFE], "signal");
        Assert.NotNull(lines.Read("snr=7.5"u8, "signal").Sample);
        lines.Read([0xFF], "signal");
        lines.Read([0xFE], "signal");
        lines.Read([0x80], "signal");
        Assert.True(lines.Read("snr=7.6"u8, "signal").IsNothing);
    }

    [Fact]
    public void A_line_with_one_damaged_byte_is_told_as_that_and_not_as_samples() => Assert.Equal(
        new Core.Formats.ParseError("signal", 1, 6, "a byte that is not text (0xff); the line was damaged on the way, or is no text"),
        new TrustedLines().Read([.. "SNR: "u8, 0xFF, .. "7.4 dB, Level -61 dBFS"u8], "signal").Error);

    private static TrustedLines Feed(string? columns) => new(columns is null ? null : SignalColumns.Read(columns, "columns").Value);

    private static List<(string Line, string Expected)> LinesOf(string style)
    {
        string[] table = [.. File.ReadLines(Path.Combine(AppContext.BaseDirectory, Table)).SkipWhile(line => line != "## " + style).Skip(1).TakeWhile(line => line.Length > 0)];
        return [.. table.Chunk(2).Select(pair => (pair[0].Replace("\\t", "\t", StringComparison.Ordinal), pair[1]["=>".Length..].TrimStart()))];
    }

    private static string Pairs(SignalLine line) => line.Sample is { } sample ? SignalLine.Format(sample) : "";
}
