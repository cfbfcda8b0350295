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
    public void A_file_that_vanished_is_begun_anew_with_the_header_and_the_settings()
    {
        using JournalPump pump = Opened();
        Add(pump, EventSamples.All[0]);
        Fill(pump, 3);
        _file.LoseFile();
        _file.SyncTrouble = "the file was removed while it was written";
        Fill(pump, 2);
        _file.SyncTrouble = null;
        Fill(pump, 1);
        Fill(pump, 1);
        Recording read = ReadBack();
        Assert.Equal([1L, 5, 6, 7, 8], read.Envelopes.Select(envelope => envelope.Sequence));
        Assert.IsType<SessionOpened>(read.Envelopes[0].Event);
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
        pump.Add(new Envelope(_sequence, TimeSpan.FromSeconds(_sequence), _time.GetUtcNow(), "test", fact));
    }

    private Recording ReadBack() => Journals.Read(_file.Bytes.ToArray());

    private sealed record Unregistered : SessionEvent;

    private sealed class ListSink : IEventSink
    {
        public List<SessionEvent> Events { get; } = [];

        public void Publish(string source, SessionEvent sessionEvent) => Events.Add(sessionEvent);
    }
}
