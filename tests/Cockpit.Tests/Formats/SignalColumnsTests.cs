using System.Text;
using Cockpit.Core.Formats;
using Cockpit.Core.Formats.Signal;
using Cockpit.Core.Signal;
using Cockpit.Devices.Feeds;

namespace Cockpit.Tests.Formats;

public sealed class SignalColumnsTests
{
    [Theory]
    [InlineData("time,,level", "12:00:05,7,-61.2", "level=-61.2")]
    [InlineData("time,,level", "2026-11-25 12:00:05;7;-61,2", "t=2026-11-25T12:00:05.0000000Z level=-61.2")]
    [InlineData("time,snr,lock", "1795608000\t7,4\tlocked", "t=2026-11-25T12:00:00.0000000Z snr=7.4 lock=1")]
    [InlineData("level,snr,lock", "-61.2 dBFS, 7.4 dB, no", "level=-61.2 snr=7.4 lock=0")]
    [InlineData("snr,,,offset_khz", "7.4,,,-1.25,more", "snr=7.4 df=-1250")]
    [InlineData("snr,clip", "\"7.4\",\"2 %\"", "snr=7.4 clip=0.02")]
    [InlineData("level,snr", "-61.2,", "level=-61.2")]
    [InlineData("snr", "7,4;9", "snr=7.4")]
    public void Told_columns_are_read_in_any_delimiter(string columns, string line, string expected) => Assert.Equal(expected, Pairs(Lines(columns).Read(Encoding.UTF8.GetBytes(line), "signal")));

    [Theory]
    [InlineData("time,,level", "12:00:05,7", 11, "found 2 columns, expected 3 separated by comma, semicolon or tab")]
    [InlineData("time,,level", "hello", 6, "found 1 column, expected 3 separated by comma, semicolon or tab")]
    [InlineData("snr,level", "7.4,abc", 5, "level is \"abc\"; expected a number")]
    [InlineData("snr,level", "7.4,nan", 5, "the value is not a number (nan or infinite); leave the key out when there is no value")]
    [InlineData("snr,level", "7.4, 300", 6, "level is 300; expected -250 to 250 dB")]
    [InlineData("snr,level", "7.4,3 V", 5, "level is \"3 V\"; expected a number")]
    [InlineData("snr,level", ",", 1, "all columns that are read are empty")]
    [InlineData("snr,level", "7,4,-61.2", 5, null)]
    public void A_row_that_does_not_fit_is_told_with_its_column(string columns, string line, int column, string? message)
    {
        SignalLine read = Lines(columns).Read(Encoding.UTF8.GetBytes(line), "signal");
        Assert.Equal(message is null ? null : new ParseError("signal", 1, column, message), read.Error);
    }

    [Theory]
    [InlineData("UTC,SNR (dB),Lock", "12:00:05,7.4,1", "snr=7.4 lock=1", "reads column 1 'UTC' as t, column 2 'SNR (dB)' as snr, column 3 'Lock' as lock")]
    [InlineData("# time;level_dbfs;x;offset_khz", "12:00:05;-61,2;9;-1,25", "level=-61.2 df=-1250", "reads column 1 'time' as t, column 2 'level_dbfs' as level, column 4 'offset_khz' as df")]
    [InlineData("n\tRSSI\tC/N0 [dB-Hz]", "1\t-60\t68.2", "level=-60 cn0=68.2", "reads column 2 'RSSI' as level, column 3 'C/N0 [dB-Hz]' as cn0")]
    public void A_header_line_names_the_columns_after_it_and_is_told_once(string header, string line, string expected, string told)
    {
        var lines = new TrustedLines();
        Assert.True(lines.Read(Encoding.UTF8.GetBytes(header), "signal").IsNothing);
        Assert.Equal(told, lines.Told);
        Assert.Equal(expected, Pairs(lines.Read(Encoding.UTF8.GetBytes(line), "signal")));
        Assert.Null(lines.Told);
    }

    [Theory]
    [InlineData("SNR: 7.4 dB, level -61 dB", "level=-61 snr=7.4")]
    [InlineData("LOCKED, ready", "lock=1")]
    [InlineData("snr=7,lock=1", "snr=7 lock=1")]
    public void A_line_for_people_with_commas_is_no_header(string line, string expected) => Assert.Equal(expected, Pairs(new TrustedLines().Read(Encoding.UTF8.GetBytes(line), "signal")));

    [Theory]
    [InlineData("12:00:05,-61.2,7.4", 3)]
    [InlineData("-61,2;7,4", 2)]
    [InlineData("-61.2\t7.4", 2)]
    public void Columns_that_nobody_named_are_told_with_what_to_write(string line, int count) => Assert.Equal(
        $"{count} columns without names; say what they are behind the address, like ?columns=time,level,snr, empty what is not read",
        new TrustedLines().Read(Encoding.UTF8.GetBytes(line), "signal").Error?.Message);

    [Fact]
    public void One_number_with_a_decimal_comma_is_no_columns() =>
        Assert.StartsWith("decimal comma", new TrustedLines().Read("-61,2"u8, "signal").Error?.Message, StringComparison.Ordinal);

    [Fact]
    public void The_header_of_told_columns_is_nothing_and_comes_back_as_nothing()
    {
        TrustedLines lines = Lines("time,snr");
        Assert.True(lines.Read("time,snr"u8, "signal").IsNothing);
        Assert.NotNull(lines.Read("12:00,7"u8, "signal").Sample);
        Assert.Equal("reads column 1 as t, column 2 as snr", lines.Told);
        Assert.True(lines.Read("time,snr"u8, "signal").IsNothing);
    }

    [Theory]
    [InlineData("tcp://127.0.0.1:17640?columns=time,,level", "tcp://127.0.0.1:17640")]
    [InlineData("file:a?b.csv?from=start&columns=snr", "file:a?b.csv?from=start")]
    [InlineData("http://h/p?columns=snr%2Clevel&x=1", "http://h/p?x=1")]
    [InlineData("stdin:?columns=snr", "-")]
    public void The_columns_stand_behind_the_address(string text, string address)
    {
        LineAddress? read = LineAddress.Read(text, "--signal").Value;
        Assert.Equal(address, read?.Text);
        Assert.NotNull(read?.Columns);
    }

    [Theory]
    [InlineData("-?columns=time,foo", "'foo' is no value; name the columns time, level, snr, cn0, df, lock, frames, ber or clip, and leave empty what is not read")]
    [InlineData("-?columns=time", "'time' names no value or one twice; write like ?columns=time,,level, each value once, 64 columns at most")]
    [InlineData("-?columns=snr,snr", "'snr,snr' names no value or one twice; write like ?columns=time,,level, each value once, 64 columns at most")]
    public void Columns_that_cannot_be_are_refused(string text, string sentence) => Assert.Equal(sentence, LineAddress.Read(text, "--signal").Error?.Message);

    [Fact]
    public void The_first_three_lines_that_agree_fix_what_a_value_is_called()
    {
        var lines = new TrustedLines();
        for (int k = 0; k < 3; k++)
        {
            Assert.Null(lines.Told);
            Assert.Equal(-61.2, lines.Read("Signal: -61.2 dBm SNR: 7.4 dB"u8, "signal").Sample?.LevelDb);
        }

        Assert.Equal("reads 'Signal' as level, 'SNR' as snr", lines.Told);
        Assert.True(lines.Read("Peak: -20 dBm"u8, "signal").IsNothing);
        Assert.Equal(new SignalSample { SnrDb = 6 }, lines.Read("Peak: -20 dBm, SNR: 6 dB"u8, "signal").Sample);
    }

    [Fact]
    public void A_name_that_comes_no_more_is_given_up_after_twenty_others()
    {
        var lines = new TrustedLines();
        for (int k = 0; k < 5; k++)
        {
            lines.Read("Signal: -61.2 dBm"u8, "signal");
        }

        for (int k = 0; k < 19; k++)
        {
            Assert.True(lines.Read("RSSI: -70 dBm"u8, "signal").IsNothing);
        }

        Assert.Equal(-70, lines.Read("RSSI: -70 dBm"u8, "signal").Sample?.LevelDb);
    }

    private static TrustedLines Lines(string columns) => new(SignalColumns.Read(columns, "columns").Value);

    private static string Pairs(SignalLine line) => line.Sample is { } sample ? SignalLine.Format(sample) : "";
}
