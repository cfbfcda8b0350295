using System.Text;
using Cockpit.Core.Chance;
using Cockpit.Devices.Journal;

namespace Cockpit.Tests.Journal;

public sealed class JournalReaderTests
{
    [Fact]
    public void A_whole_journal_reads_without_a_note()
    {
        Recording read = Journals.Read(Journals.Lines(500));
        Assert.Equal(Enumerable.Range(1, 500).Select(Journals.Tick), read.Envelopes);
        Assert.Equal(new JournalHeader(1, "0.1.0", Journals.Start), read.Header);
        Assert.Empty(read.Notes);
    }

    [Fact]
    public void A_journal_cut_off_at_any_byte_gives_everything_before_and_says_what_was_cut()
    {
        byte[] all = Encoding.UTF8.GetBytes(string.Concat(Journals.Lines(3)));
        int header = Journals.Lines(0)[0].Length;
        int line = Journals.Lines(1)[1].Length;
        for (int length = header; length < all.Length; length++)
        {
            // A line that lacks nothing but its line end is whole.
            int whole = (length - header + 1) / line;
            if (whole == 0)
            {
                Assert.Equal("test: the session holds no events", Journals.Problem(all[..length]));
                continue;
            }

            Recording read = Journals.Read(all[..length]);
            Assert.Equal(whole, read.Envelopes.Length);
            bool clean = (length - header) % line is 0 || (length - header + 1) % line is 0;
            Assert.Equal(clean ? [] : [JournalNoteKind.TornEnd], read.Notes.Select(note => note.Kind));
        }
    }

    [Fact]
    public void A_damaged_line_is_told_with_its_number_and_passed_over()
    {
        List<string> lines = Journals.Lines(4);
        lines[2] = lines[2].Replace("\"clock\"", "\"clack\"", StringComparison.Ordinal);
        Recording read = Journals.Read(lines);
        Assert.Equal([1L, 3, 4], read.Envelopes.Select(envelope => envelope.Sequence));
        Assert.Equal(
            [
                "line 3: the line is damaged (its checksum does not match); it is passed over",
                "line 4: events 2 to 2 are missing",
            ],
            Texts(read));
    }

    [Fact]
    public void Missing_and_doubled_events_are_told()
    {
        List<string> lines = Journals.Lines(6);
        Recording read = Journals.Read([lines[0], lines[1], lines[5], lines[3], lines[5], lines[6]]);
        Assert.Equal([1L, 3, 5, 6], read.Envelopes.Select(envelope => envelope.Sequence));
        Assert.Equal(
            [
                "line 3: event 5 stands out of order, or a second time; it is passed over",
                "line 4: events 2 to 2 are missing",
                "line 5: events 4 to 4 are missing",
            ],
            Texts(read));
    }

    [Fact]
    public void Events_of_a_newer_program_are_told_once_and_passed_over()
    {
        List<string> lines = Journals.Lines(4);
        lines[2] = Journals.Checked(lines[2].Replace("clock.ticked/1", "moon.seen/3", StringComparison.Ordinal));
        lines[3] = Journals.Checked(lines[3].Replace("clock.ticked/1", "moon.seen/3", StringComparison.Ordinal));
        lines[4] = Journals.Checked(lines[4].Replace("\"source\"", "\"later\":[{}],\"source\"", StringComparison.Ordinal));
        Recording read = Journals.Read(lines);
        Assert.Equal([1L, 4], read.Envelopes.Select(envelope => envelope.Sequence));
        Assert.Equal(["line 3: events of type moon.seen/3 are not known to this version of the program; they are passed over"], Texts(read));
    }

    [Fact]
    public void A_line_without_end_is_passed_over_and_not_kept()
    {
        List<string> lines = Journals.Lines(2);
        lines.Insert(2, new string('x', JournalReader.LongestLine + 1) + "\n");
        Recording read = Journals.Read(lines);
        Assert.Equal(2, read.Envelopes.Length);
        Assert.Equal([JournalNoteKind.Damaged], read.Notes.Select(note => note.Kind));
    }

    [Fact]
    public void A_lost_header_costs_the_header_and_no_event()
    {
        List<string> lines = Journals.Lines(5);
        Recording without = Journals.Read(lines.Skip(1));
        Assert.Equal(Enumerable.Range(1, 5).Select(Journals.Tick), without.Envelopes);
        Assert.Null(without.Header);
        Assert.Equal(["line 1: the header is lost; the events behind it are read"], Texts(without));
        lines[0] = lines[0][..20] + "\n";
        Assert.Equal(5, Journals.Read(lines).Envelopes.Length);
    }

    [Fact]
    public void A_hole_of_zeros_as_a_cut_leaves_it_costs_what_was_there_and_no_more()
    {
        List<string> lines = Journals.Lines(9);
        string hole = new('\0', 3 * 1024 * 1024);
        Recording read = Journals.Read([hole, .. lines.Skip(6)]);
        Assert.Equal([6L, 7, 8, 9], read.Envelopes.Select(envelope => envelope.Sequence));
        Assert.Contains(read.Notes, note => note.Kind == JournalNoteKind.LostHeader);
        Assert.Contains(read.Notes, note => note.Text.StartsWith("3145728 zero bytes", StringComparison.Ordinal));
        Assert.False(read.IsUndamaged);
    }

    [Theory]
    [InlineData("1e27")]
    [InlineData("7.9e28")]
    [InlineData("9e11")]
    [InlineData("-4")]
    [InlineData("1e300")]
    [InlineData("null")]
    public void One_wild_time_costs_its_line_and_not_the_session(string wild)
    {
        List<string> lines = Journals.Lines(9);
        lines[4] = Journals.Checked(lines[4].Replace("\"elapsed_s\":0.4", $"\"elapsed_s\":{wild}", StringComparison.Ordinal));
        Recording read = Journals.Read(lines);
        Assert.Equal([1L, 2, 3, 5, 6, 7, 8, 9], read.Envelopes.Select(envelope => envelope.Sequence));
        Assert.Contains(read.Notes, note => note.Line == 5);
        Assert.False(read.IsUndamaged);
    }

    [Theory]
    [InlineData("\"elapsed_s\":0.4", "\"elapsed_s\":4000", "line 5: the time of event 4, 4000 s, runs against those beside it; it is taken as 0.3 s")]
    [InlineData("\"elapsed_s\":0.4", "\"elapsed_s\":0.1", "line 5: the time of event 4, 0.1 s, runs against those beside it; it is taken as 0.3 s")]
    public void Time_that_runs_back_is_a_note(string good, string wild, string note)
    {
        List<string> lines = Journals.Lines(9);
        lines[4] = Journals.Checked(lines[4].Replace(good, wild, StringComparison.Ordinal));
        Recording read = Journals.Read(lines);
        Assert.Equal([note], Texts(read));
        Assert.Equal(9, read.Envelopes.Length);
        Assert.Equal(TimeSpan.FromSeconds(0.3), read.Envelopes[3].Elapsed);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(3)]
    [InlineData(8)]
    public void A_wild_date_of_one_event_is_mended_by_those_beside_it(int at)
    {
        List<string> lines = Journals.Lines(9);
        lines[at + 1] = Journals.Checked(lines[at + 1].Replace("2026-11-25T", "2031-03-03T", StringComparison.Ordinal));
        Recording read = Journals.Read(lines);
        Assert.Equal(Enumerable.Range(1, 9).Select(Journals.Tick), read.Envelopes);
        Assert.Equal(JournalNoteKind.TimeOff, Assert.Single(read.Notes).Kind);
    }

    [Fact]
    public void A_wild_number_costs_its_event_and_not_those_behind_it()
    {
        List<string> lines = Journals.Lines(9);
        lines[4] = Journals.Checked(lines[4].Replace("\"seq\":4", "\"seq\":9000000000000000000", StringComparison.Ordinal));
        Assert.Equal([1L, 2, 3, 5, 6, 7, 8, 9], Journals.Read(lines).Envelopes.Select(envelope => envelope.Sequence));
    }

    [Theory]
    [InlineData("")]
    [InlineData("hello\n")]
    [InlineData("no line of it is an event\nnor is this\n")]
    public void What_holds_no_event_at_all_is_refused(string text) => Assert.StartsWith("here:1: this is not a session", Journals.ErrorOf(text), StringComparison.Ordinal);

    [Theory]
    [InlineData("", "here:1: this is not a session: there is no whole first line; give the folder of a session")]
    [InlineData("{\"cockpit_journal\":1,\"prog", "here:1: this is not a session: there is no whole first line; give the folder of a session")]
    [InlineData("hello\n", "here:1: this is not a session: the first line is not the header of a journal, and no event follows; give the folder of a session")]
    [InlineData("{}\n", "here:1: this is not a session: the first line is not the header of a journal, and no event follows; give the folder of a session")]
    [InlineData("{\"cockpit_journal\":9,\"program\":\"7.0\",\"created_utc\":\"2040-01-01T00:00:00Z\"}\n", "here:1: the session is in format 9, this program reads format 1; use the version 7.0 that wrote it, or a newer one")]
    public void What_is_no_session_is_refused_with_one_sentence(string text, string sentence) => Assert.Equal(sentence, Journals.ErrorOf(text));

    // 1 000 damaged copies: never an exception, never an event that was not written.
    [Fact]
    public void Damage_anywhere_never_throws_and_never_makes_an_event_up()
    {
        Xoshiro256 chance = new(seed: 99);
        byte[] good = Encoding.UTF8.GetBytes(string.Concat(Journals.Lines(8)));
        int header = Journals.Lines(0)[0].Length;
        for (int round = 0; round < 1000; round++)
        {
            byte[] bytes = [.. good];
            for (int change = chance.NextBelow(4); change >= 0; change--)
            {
                bytes[header + chance.NextBelow(bytes.Length - header)] = (byte)chance.NextBelow(256);
            }

            if (Journals.Problem(bytes) is null)
            {
                Assert.All(Journals.Read(bytes).Envelopes, envelope => Assert.Equal(Journals.Tick((int)envelope.Sequence), envelope));
            }
        }
    }

    private static string[] Texts(Recording read) => [.. read.Notes.Select(note => note.ToString())];
}
