using System.Text;
using Cockpit.Core.Chance;
using Cockpit.Devices.Journal;
using Cockpit.Session.Events;

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
            Recording read = Journals.Read(all[..length]);

            // A line that lacks nothing but its line end is whole.
            int whole = (length - header + 1) / line;
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
        Assert.Equal([1L, 5, 6], read.Envelopes.Select(envelope => envelope.Sequence));
        Assert.Equal(
            [
                "line 3: events 2 to 4 are missing",
                "line 4: event 3 comes after event 5; it is passed over",
                "line 5: event 5 comes after event 5; it is passed over",
            ],
            Texts(read));
    }

    [Fact]
    public void Events_of_a_newer_program_are_told_once_and_passed_over()
    {
        List<string> lines = Journals.Lines(4);
        lines[2] = Checked(lines[2].Replace("clock.ticked/1", "moon.seen/3", StringComparison.Ordinal));
        lines[3] = Checked(lines[3].Replace("clock.ticked/1", "moon.seen/3", StringComparison.Ordinal));
        lines[4] = Checked(lines[4].Replace("\"source\"", "\"later\":[{}],\"source\"", StringComparison.Ordinal));
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

    [Theory]
    [InlineData("", "here:1: this is not a session: there is no whole first line; give the folder of a session")]
    [InlineData("{\"cockpit_journal\":1,\"prog", "here:1: this is not a session: there is no whole first line; give the folder of a session")]
    [InlineData("hello\n", "here:1: this is not a session: the first line is not the header of a journal; give the folder of a session")]
    [InlineData("{}\n", "here:1: this is not a session: the first line is not the header of a journal; give the folder of a session")]
    [InlineData("{\"cockpit_journal\":9,\"program\":\"7.0\",\"created_utc\":\"2040-01-01T00:00:00Z\"}\n", "here:1: the session is in format 9, this program reads format 1; use the version 7.0 that wrote it, or a newer one")]
    public void What_is_no_session_is_refused_with_one_sentence(string text, string sentence) => Assert.Equal(sentence, Journals.Refusal(text));

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

            foreach (Envelope envelope in Journals.Read(bytes).Envelopes)
            {
                Assert.Equal(Journals.Tick((int)envelope.Sequence), envelope);
            }
        }
    }

    private static string[] Texts(Recording read) => [.. read.Notes.Select(note => note.ToString())];

    private static string Checked(string line)
    {
        string body = line[..line.IndexOf(",\"crc\":", StringComparison.Ordinal)];
        return $"{body},\"crc\":\"{Crc32.Of(Encoding.UTF8.GetBytes(body)):x8}\"}}\n";
    }
}
