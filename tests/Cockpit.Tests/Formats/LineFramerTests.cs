using System.Text;
using Cockpit.Core.Formats;
using CsCheck;

namespace Cockpit.Tests.Formats;

public sealed class LineFramerTests
{
    [Fact]
    public void Lines_come_out_the_same_however_the_bytes_are_cut() =>
        Gen.Int[1, 9].Array[1, 20].Sample(sizes =>
        {
            byte[] bytes = Encoding.ASCII.GetBytes("a\r\n\nlong-one!!\n12345678\r\n123456789\nlast\nhalf");
            List<string> lines = [];
            LineFramer framer = new(8);
            for (int at = 0, piece = 0; at < bytes.Length; piece++)
            {
                int size = Math.Min(sizes[piece % sizes.Length], bytes.Length - at);
                framer.Add(bytes.AsSpan(at, size), line => lines.Add(Encoding.ASCII.GetString(line)));
                at += size;
            }

            return lines is ["a", "", "12345678", "last"] && framer.TooLong == 2;
        });

    [Fact]
    public void A_record_ends_a_line_without_line_end()
    {
        List<string> lines = [];
        LineFramer framer = new(8);
        framer.Add("1\n2"u8, Take);
        framer.EndOfRecord(Take);
        framer.EndOfRecord(Take);
        framer.Add("123456789"u8, Take);
        framer.EndOfRecord(Take);
        framer.Add("3\n"u8, Take);
        Assert.Equal(["1", "2", "3"], lines);
        Assert.Equal(1, framer.TooLong);

        void Take(ReadOnlySpan<byte> line) => lines.Add(Encoding.ASCII.GetString(line));
    }

    [Fact]
    public void A_line_without_end_is_counted_while_it_comes()
    {
        LineFramer framer = new(8);
        framer.Add("12345"u8, Take);
        Assert.Equal((0, 0), (framer.TooLong, framer.Endless));
        framer.Add("67890"u8, Take);
        Assert.Equal((1, 10), (framer.TooLong, framer.Endless));
        framer.Add("12345"u8, Take);
        Assert.Equal((1, 15), (framer.TooLong, framer.Endless));
        framer.Add("\n"u8, Take);
        Assert.Equal((1, 0), (framer.TooLong, framer.Endless));

        static void Take(ReadOnlySpan<byte> line) => Assert.Fail("no line was to come");
    }

    [Fact]
    public void A_stream_that_begins_inside_a_line_loses_that_line_without_counting_it()
    {
        List<string> lines = [];
        LineFramer framer = new(8);
        framer.Add("torn"u8, Take);
        framer.Restart(insideLine: true);
        framer.Add("rest of a very long line\n7.4\n"u8, Take);
        Assert.Equal(["7.4"], lines);
        Assert.Equal(0, framer.TooLong);

        void Take(ReadOnlySpan<byte> line) => lines.Add(Encoding.ASCII.GetString(line));
    }
}
