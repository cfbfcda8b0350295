using Cockpit.Devices.Journal;
using Cockpit.Session.Bus;
using Cockpit.Session.Events;
using Microsoft.Extensions.Time.Testing;

namespace Cockpit.Tests.Journal;

public sealed class JournalPumpTests : IDisposable
{
    private readonly FakeTimeProvider _time = new(new DateTimeOffset(2026, 11, 25, 10, 15, 0, TimeSpan.Zero));
    private readonly FailingFile _file = new();
    private readonly ListSink _sink = new();
    private long _sequence;

    [Fact]
    public void Events_are_in_the_file_after_a_step_and_on_the_disk_after_a_second()
    {
        using JournalPump pump = Opened();
        Add(pump, new Ticked());
        Assert.False(pump.IsIdle);
        pump.Step();
        Assert.Single(ReadBack().Envelopes);
        Assert.Equal(0, _file.Syncs);
        Assert.False(pump.IsIdle);
        _time.Advance(TimeSpan.FromSeconds(1));
        pump.Step();
        Assert.Equal(1, _file.Syncs);
        Assert.True(pump.IsIdle);
    }

    [Fact]
    public void The_operators_keys_are_on_the_disk_at_once()
    {
        using JournalPump pump = Opened();
        Add(pump, new OperatorPressed(OperatorKey.Peaked));
        pump.Step();
        Assert.Equal(1, _file.Syncs);
    }

    [Fact]
    public void A_full_disk_is_told_once_and_nothing_is_lost_when_there_is_room_again()
    {
        using JournalPump pump = Opened();
        Fill(pump, 10);
        _file.Room = _file.Bytes.Length - 70;
        for (int second = 0; second < 5; second++)
        {
            Fill(pump, 10);
        }

        string trouble = "/sessions/x/session.jsonl cannot be written: No space left on device; tried again every second";
        Assert.Equal([new JournalChanged(trouble)], _sink.Events);
        _file.Room = long.MaxValue;
        Fill(pump, 10);
        Assert.Equal([new JournalChanged(trouble), new JournalChanged(null)], _sink.Events);
        Assert.Equal(70, ReadBack().Envelopes.Length);
        Assert.Empty(ReadBack().Notes);
    }

    [Fact]
    public void What_does_not_fit_the_queue_is_counted_told_and_seen_by_the_reader_as_a_gap()
    {
        using JournalPump pump = Opened(capacity: 8);
        Fill(pump, 5);
        _file.Room = _file.Bytes.Length;
        Fill(pump, 1);
        Fill(pump, 20);
        _file.Room = long.MaxValue;
        Fill(pump, 0);
        Fill(pump, 1);
        Assert.Contains(new JournalChanged("the journal is written again, but 12 events are missing from it"), _sink.Events);
        Assert.Equal(new JournalChanged(null), _sink.Events[^1]);
        Recording read = ReadBack();
        Assert.True(pump.IsIdle);
        Assert.Equal(15, read.Envelopes.Length);
        Assert.Equal(new JournalNote(8, JournalNoteKind.Gap, "events 7 to 18 are missing"), Assert.Single(read.Notes));
    }

    [Fact]
    public void A_failed_sync_writes_the_same_bytes_again()
    {
        using JournalPump pump = Opened();
        Fill(pump, 3);
        _file.SyncTrouble = "Input/output error";
        Fill(pump, 3);
        _file.SyncTrouble = null;
        Fill(pump, 3);
        Assert.Equal(9, ReadBack().Envelopes.Length);
        Assert.Empty(ReadBack().Notes);
    }

    [Fact]
    public void A_file_that_vanished_is_written_again_whole_and_that_is_said()
    {
        using JournalPump pump = Opened();
        Fill(pump, 3);
        _file.LoseFile();
        Fill(pump, 2);
        AssertWhole(5, "/sessions/x/session.jsonl was removed; the session is written again whole");
        Fill(pump, 1);
        Assert.Equal(new JournalChanged(null), _sink.Events[^1]);
        AssertWhole(6);
    }

    [Fact]
    public void Another_file_in_its_place_is_kept_under_another_name_and_the_session_written_again_whole()
    {
        using JournalPump pump = Opened();
        Fill(pump, 3);
        byte[] copy = _file.Bytes.ToArray()[..^20];
        _file.Replace(copy);
        Fill(pump, 2);
        AssertWhole(5, "/sessions/x/session.jsonl was replaced by another file; what was there is now session.other-1.jsonl; the session is written again whole");
        Assert.Equal(copy, Assert.Single(_file.Aside).ToArray());
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(300)]
    public void A_file_that_was_cut_off_is_written_again_whole(int length)
    {
        using JournalPump pump = Opened();
        Fill(pump, 5);
        _file.Bytes.SetLength(length);
        Fill(pump, 2);
        AssertWhole(7, "/sessions/x/session.jsonl was cut off; the session is written again whole");
    }

    [Fact]
    public void What_another_program_wrote_behind_it_is_kept_too()
    {
        using JournalPump pump = Opened();
        Fill(pump, 3);
        _file.Bytes.Position = _file.Bytes.Length;
        _file.Bytes.Write("a line of somebody else"u8);
        Fill(pump, 2);
        AssertWhole(5, "/sessions/x/session.jsonl was written to by another program; what was there is now session.other-1.jsonl; the session is written again whole");
        Assert.Single(_file.Aside);
    }

    [Fact]
    public void A_full_disk_while_it_is_written_again_loses_nothing()
    {
        using JournalPump pump = Opened();
        Fill(pump, 9);
        _file.LoseFile();
        _file.Room = 400;
        Fill(pump, 2);
        Fill(pump, 2);
        _file.Room = long.MaxValue;
        Fill(pump, 1);
        AssertWhole(14);
        Assert.Empty(_file.Aside);
    }

    [Fact]
    public void A_long_session_is_held_packed_and_written_again_whole()
    {
        using JournalPump pump = Opened();
        for (int round = 0; round < 12; round++)
        {
            Fill(pump, 1000);
        }

        _file.Bytes.SetLength(0);
        Fill(pump, 1);
        AssertWhole(12001);
    }

    [Fact]
    public void The_last_word_counts_what_a_full_disk_did_not_take_and_says_where_all_of_it_is()
    {
        using JournalPump pump = Opened();
        Fill(pump, 10);
        _file.Room = _file.Bytes.Length;
        Fill(pump, 7);
        using FailingFile rescue = new();
        JournalOutcome outcome = pump.Finish(() => rescue);
        Assert.Equal(new JournalOutcome(7, "No space left on device", "/sessions/x/session.jsonl"), outcome);
        Assert.Equal(17, Journals.Read(rescue.Bytes.ToArray()).Envelopes.Length);
        Assert.Equal(
            "session not kept whole in sessions/x: 7 events are missing (No space left on device); all that is held is in /sessions/x/session.jsonl: move it to where it lasts",
            outcome.Sentence("sessions/x"));
    }

    [Fact]
    public void The_last_word_of_a_whole_session_is_where_it_is()
    {
        using JournalPump pump = Opened();
        Fill(pump, 10);
        Add(pump, new SessionClosed("ended"));
        JournalOutcome outcome = pump.Finish(() => throw new InvalidOperationException("nothing is to be rescued"));
        Assert.True(outcome.IsWhole);
        Assert.Equal("session kept in sessions/x", outcome.Sentence("sessions/x"));
        AssertWhole(11);
    }

    [Fact]
    public void What_the_queue_had_to_drop_is_in_the_last_word()
    {
        using JournalPump pump = Opened(capacity: 8);
        Fill(pump, 5);
        _file.Room = _file.Bytes.Length;
        Fill(pump, 21);
        _file.Room = long.MaxValue;
        JournalOutcome outcome = pump.Finish(() => throw new InvalidOperationException("nothing is to be rescued"));
        Assert.Equal("session not kept whole in x: 13 events are missing", outcome.Sentence("x"));
    }

    [Fact]
    public void An_event_that_cannot_be_written_is_told_once_and_the_others_go_on()
    {
        using JournalPump pump = Opened();
        Add(pump, new Unregistered());
        Add(pump, new Unregistered());
        Add(pump, new Ticked());
        pump.Step();
        Assert.Equal([new PartFailed("journal", "an event could not be written: events of type Unregistered have no name in the journal")], _sink.Events);
        Assert.Equal([3L], ReadBack().Envelopes.Select(envelope => envelope.Sequence));
        pump.Step(finish: true);
        Assert.True(pump.IsIdle);
        Add(pump, new Unregistered());
        pump.Step();
        Assert.True(pump.IsIdle);
    }

    [Fact]
    public void An_old_journal_is_never_written_over()
    {
        using JournalPump first = Opened();
        using JournalPump second = new(_file, _sink, _time, "0.1.0");
        Assert.Equal("there is a journal already, and a journal is never written over", Assert.Throws<IOException>(second.Open).Message);
    }

    public void Dispose() => _file.Dispose();

    private JournalPump Opened(int capacity = JournalPump.DefaultCapacity)
    {
        JournalPump pump = new(_file, _sink, _time, "0.1.0", capacity);
        pump.Open();
        return pump;
    }

    private void Fill(JournalPump pump, int count)
    {
        for (int i = 0; i < count; i++)
        {
            Add(pump, new Ticked());
        }

        _time.Advance(TimeSpan.FromSeconds(1));
        pump.Step();
    }

    private void Add(JournalPump pump, SessionEvent fact)
    {
        _sequence++;
        TimeSpan elapsed = TimeSpan.FromSeconds(_sequence);
        pump.Add(new Envelope(_sequence, elapsed, Journals.Start + elapsed, "test", fact));
    }

    private void AssertWhole(int count, string? told = null)
    {
        Recording read = ReadBack();
        Assert.Equal(Enumerable.Range(1, count).Select(number => (long)number), read.Envelopes.Select(envelope => envelope.Sequence));
        Assert.Empty(read.Notes);
        if (told is not null)
        {
            Assert.Contains(new JournalChanged(told), _sink.Events);
        }
    }

    private Recording ReadBack() => Journals.Read(_file.Bytes.ToArray());

    private sealed record Unregistered : SessionEvent;

    private sealed class ListSink : IEventSink
    {
        public List<SessionEvent> Events { get; } = [];

        public void Publish(string source, SessionEvent sessionEvent) => Events.Add(sessionEvent);
    }
}
