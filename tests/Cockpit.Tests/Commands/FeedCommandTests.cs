using System.Text;
using Cockpit.Commands;
using Cockpit.Devices.Feeds;
using Microsoft.Extensions.Time.Testing;

namespace Cockpit.Tests.Commands;

public sealed class FeedCommandTests
{
    private static readonly DateTimeOffset Noon = new(2026, 11, 25, 12, 0, 0, TimeSpan.Zero);

    [Fact]
    public void A_table_shows_each_line_and_below_it_what_was_read_or_why_not()
    {
        string table = Printed(OutputFormat.Table, out _, "[12:00:05] SNR: 7,4 dB (not locked)", "gain\u001b[2J 30", "# PETREL 2", "snr=7.4 level=-61.2 df=-1250", "snr=700");
        Assert.Equal(
            """
            UTC         lines/s  the line, and below it what is read (=), why not (x), or nothing (-)
            12:00:00.0        1  [12:00:05] SNR: 7,4 dB (not locked)
                                 = snr 7.4 dB ('SNR'), lock no ('locked')
            12:00:00.2        2  gain�[2J 30
                                 x column 5: expected a number, key=value or a JSON object, found "gain"
            12:00:00.4        3  # PETREL 2
                                 - nothing: empty, or a comment
            12:00:00.6        4  snr=7.4 level=-61.2 df=-1250
                                 = snr 7.4 dB, level -61.2 dB, df -1250 Hz
            12:00:00.8        5  snr=700
                                 x column 5: snr is 700; expected -250 to 250 dB

            """,
            table);
    }

    [Fact]
    public void CSV_and_JSON_hold_the_values_and_the_refusal_with_its_column()
    {
        Assert.Equal(
            """"
            utc,lines_per_s,line,t,level_db,snr_db,cn0_dbhz,offset_hz,lock,frames,ber,clip_share,read,column,problem
            2026-11-25T12:00:00.000Z,1,"SNR: 7,4 dB, locked",,,7.4,,,true,,,,"snr 7.4 dB ('SNR'), lock yes ('locked')",,
            2026-11-25T12:00:00.200Z,2,hello,,,,,,,,,,,6,"expected a number, key=value or a JSON object, found ""hello"""

            """",
            Printed(OutputFormat.Csv, out _, "SNR: 7,4 dB, locked", "hello"));
        Assert.Contains("\"snr_db\": 7.4, \"cn0_dbhz\": null, \"offset_hz\": null, \"lock\": true", Printed(OutputFormat.Json, out _, "SNR: 7,4 dB, locked"), StringComparison.Ordinal);
    }

    [Fact]
    public void The_last_sentence_counts_and_tells_what_the_receiver_calls_the_values()
    {
        Printed(OutputFormat.Csv, out string last, "RSSI -60 dBm, S/N 7 dB", "hello", "", "RSSI -61 dBm, S/N 6 dB");
        Assert.Equal("4 lines: 2 read, 1 refused; reads 'RSSI' as level, 'S/N' as snr", last);
    }

    [Fact]
    public void A_flood_shows_what_people_can_follow_and_counts_the_rest()
    {
        string table = Printed(OutputFormat.Table, out string last, [.. Enumerable.Repeat("snr=7", 30)], TimeSpan.FromMilliseconds(1));
        Assert.Equal(20, table.Split("  snr=7\n").Length - 1);
        Assert.EndsWith("... 10 more lines, too many to show\n", table, StringComparison.Ordinal);
        Assert.Equal("30 lines: 30 read, 0 refused", last);
    }

    [Fact]
    public async Task A_file_is_shown_from_its_start_and_the_exit_code_tells_whether_anything_was_read()
    {
        string file = Path.GetTempFileName();
        try
        {
            await File.WriteAllTextAsync(file, "Level: -61,5 dBFS\nhello\n", CancellationToken.None);
            CommandRun run = await CommandRun.Of("feed", $"file:{file}?from=start", "--for", "1s");
            Assert.Equal(0, run.ExitCode);
            Assert.Contains("= level -61.5 dB ('Level')", run.Output, StringComparison.Ordinal);
            Assert.Contains("2 lines: 1 read, 1 refused; reads 'Level' as level", run.Error, StringComparison.Ordinal);
        }
        finally
        {
            File.Delete(file);
        }
    }

    [Theory]
    [InlineData("tcp://127.0.0.1:5020?format=ci16&rate=3000000", "ADDRESS: 'tcp://127.0.0.1:5020?format=ci16&rate=30...' brings samples, not lines; see what is in them with cockpit meter and the same address")]
    [InlineData("file:pass.wav", "ADDRESS: 'file:pass.wav' brings samples, not lines; see what is in them with cockpit meter and the same address")]
    [InlineData("gopher://x:1", "ADDRESS: 'gopher://x:1' is not an address; write ")]
    [InlineData("file:/", "ADDRESS: / is a folder; give the file that the other program writes")]
    public async Task An_address_that_cannot_bring_lines_is_refused_with_what_to_do(string address, string complaint)
    {
        CommandRun run = await CommandRun.Of("feed", address);
        Assert.Equal(2, run.ExitCode);
        Assert.StartsWith(complaint, run.Error, StringComparison.Ordinal);
    }

    private static string Printed(OutputFormat format, out string last, params string[] lines) => Printed(format, out last, lines, TimeSpan.FromMilliseconds(200));

    private static string Printed(OutputFormat format, out string last, string[] lines, TimeSpan between)
    {
        FakeTimeProvider clock = new(Noon);
        using StringWriter output = new() { NewLine = "\n" };
        SignalGrammar grammar = new();
        FeedPrinter printer = new(output, TextWriter.Null, format, grammar, clock);
        LineListener listener = new(grammar, "line", printer);
        printer.Begin();
        foreach (string line in lines)
        {
            listener.Received(Encoding.UTF8.GetBytes(line + "\n"));
            clock.Advance(between);
        }

        last = printer.End();
        return output.ToString();
    }
}
