using System.Collections.Immutable;
using System.Globalization;
using Cockpit.Session.Events;

namespace Cockpit.Devices.Journal;

/// <summary>Puts what was read into the one order of a session: numbers rise, time never runs back.</summary>
/// <remarks>
/// One wild number must not cost the events beside it, so not the first of two that disagree is believed but the most that agree: the
/// longest rising run of them. An event whose number does not fit is passed over; one whose time does not fit is kept, at the time of
/// the event before it.
/// </remarks>
internal sealed class EventOrder(Action<JournalNote> note)
{
    /// <summary>So much is no matter to anything that follows from UTC.</summary>
    private static readonly TimeSpan Slack = TimeSpan.FromSeconds(1);

    private readonly List<(long Line, long Sequence, Envelope? Envelope)> _read = [];

    /// <summary>Events that were taken so far.</summary>
    public int Count => _read.Count;

    /// <summary>Takes what a line holds.</summary>
    public void Add(long line, JournalRecord record)
    {
        // No event has such a number; that it is wild was told already.
        if (record.Sequence >= 1)
        {
            _read.Add((line, record.Sequence, record.Envelope));
        }
    }

    /// <summary>The events in order.</summary>
    public ImmutableArray<Envelope> Ordered()
    {
        List<(long Line, Envelope Envelope)> events = InSequence();
        FitElapsed(events);
        FitUtc(events);
        return [.. events.Select(one => one.Envelope)];
    }

    private List<(long Line, Envelope Envelope)> InSequence()
    {
        bool[] rising = RisingRun.Of([.. _read.Select(one => one.Sequence)], strictly: true);
        List<(long, Envelope)> events = new(_read.Count);
        long last = 0;
        for (int i = 0; i < _read.Count; i++)
        {
            (long line, long sequence, Envelope? envelope) = _read[i];
            if (!rising[i])
            {
                note(new(line, JournalNoteKind.OutOfOrder, string.Create(CultureInfo.InvariantCulture, $"event {sequence} stands out of order, or a second time; it is passed over")));
                continue;
            }

            if (sequence != last + 1)
            {
                note(new(line, JournalNoteKind.Gap, string.Create(CultureInfo.InvariantCulture, $"events {last + 1} to {sequence - 1} are missing")));
            }

            last = sequence;
            if (envelope is not null)
            {
                events.Add((line, envelope));
            }
        }

        return events;
    }

    private void FitElapsed(List<(long Line, Envelope Envelope)> events)
    {
        bool[] rising = RisingRun.Of([.. events.Select(one => one.Envelope.Elapsed.Ticks)], strictly: false);
        Envelope? before = events.Where((_, i) => rising[i]).Select(one => one.Envelope).FirstOrDefault();
        for (int i = 0; i < events.Count && before is not null; i++)
        {
            (long line, Envelope envelope) = events[i];
            if (rising[i])
            {
                before = envelope;
                continue;
            }

            note(new(line, JournalNoteKind.TimeOff, string.Create(
                CultureInfo.InvariantCulture,
                $"the time of event {envelope.Sequence}, {envelope.Elapsed.TotalSeconds:0.###} s, runs against those beside it; it is taken as {before.Elapsed.TotalSeconds:0.###} s")));
            events[i] = (line, envelope with { Elapsed = before.Elapsed, Utc = before.Utc });
        }
    }

    // UTC is elapsed time and an offset that only a correction of the clock changes; one event alone with another offset is wild.
    private void FitUtc(List<(long Line, Envelope Envelope)> events)
    {
        if (events.Count < 3)
        {
            return;
        }

        bool firstIsAlone = events[1].Envelope.Event is not ClockCorrected && Zero(events[1].Envelope) == Zero(events[2].Envelope);
        DateTimeOffset zero = Zero(events[firstIsAlone ? 1 : 0].Envelope);
        for (int i = 0; i < events.Count; i++)
        {
            (long line, Envelope envelope) = events[i];
            DateTimeOffset own = Zero(envelope);
            bool agreed = i + 1 < events.Count && Zero(events[i + 1].Envelope) == own;
            if ((own - zero).Duration() <= Slack || agreed || envelope.Event is ClockCorrected)
            {
                zero = own;
                continue;
            }

            note(new(line, JournalNoteKind.TimeOff, string.Create(
                CultureInfo.InvariantCulture,
                $"the UTC of event {envelope.Sequence}, {envelope.Utc:yyyy-MM-dd'T'HH:mm:ss'Z'}, does not fit those beside it; it is taken as {zero + envelope.Elapsed:yyyy-MM-dd'T'HH:mm:ss'Z'}")));
            events[i] = (line, envelope with { Utc = zero + envelope.Elapsed });
        }
    }

    private static DateTimeOffset Zero(Envelope envelope) => envelope.Utc - envelope.Elapsed;
}
