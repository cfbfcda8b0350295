using System.Collections.Immutable;
using System.Globalization;
using Cockpit.Session.Events;

namespace Cockpit.Devices.Journal;

/// <summary>What is damaged in a session, and what that costs, in words for people.</summary>
public static class DamageReport
{
    private static readonly TimeSpan TickGap = TimeSpan.FromSeconds(1.0);

    /// <summary>A sentence for each kind of damage; empty for a session without any.</summary>
    /// <param name="recording">What could be read.</param>
    public static ImmutableArray<string> Of(Recording recording)
    {
        ArgumentNullException.ThrowIfNull(recording);
        var told = ImmutableArray.CreateBuilder<string>();
        Add(told, recording, JournalNoteKind.LostHeader, _ => "the first line, the header, is lost: when the journal was begun and by which version is not known; no event is lost by it");
        Add(told, recording, JournalNoteKind.TornEnd, _ => "the last line was cut off in the middle, as by a crash: one event is lost, and all that would have come after");
        Add(told, recording, JournalNoteKind.Damaged, notes => Number(notes, "place is", "places are", "damaged: the events there are lost"));
        Add(told, recording, JournalNoteKind.Gap, notes => Number(notes, "hole is", "holes are", "in the numbers of the events: events are missing before the lines named"));
        Add(told, recording, JournalNoteKind.OutOfOrder, notes => Number(notes, "event stands", "events stand", "a second time or out of order: each is kept once, in order"));
        Add(told, recording, JournalNoteKind.Wild, notes => Number(notes, "line holds", "lines hold", "a value that cannot be: the usual value is taken, or the line is passed over"));
        Add(told, recording, JournalNoteKind.TimeOff, notes => Number(notes, "event has", "events have", "a time that does not fit those beside it: the time beside it is taken"));
        if (told.Count > 0 && recording.Envelopes[0].Event is not SessionOpened)
        {
            told.Add("the event that opens the session is lost, and with it station, satellite and dish: what was measured is saved, but no pass can be shown or reviewed");
        }

        if (told.Count > 0 && Silence(recording) is { Length: > 0 } silence)
        {
            told.Add(silence);
        }

        Add(told, recording, JournalNoteKind.UnknownType, notes => Number(notes, "type of event is", "types of event are", "of a newer version of the program: they stay in the original only"));
        return told.ToImmutable();
    }

    private static void Add(ImmutableArray<string>.Builder told, Recording recording, JournalNoteKind kind, Func<ImmutableArray<JournalNote>, string> words)
    {
        ImmutableArray<JournalNote> notes = [.. recording.Notes.Where(note => note.Kind == kind)];
        if (!notes.IsEmpty)
        {
            told.Add($"{words(notes)} ({Where(notes)})");
        }
    }

    private static string Number(ImmutableArray<JournalNote> notes, string one, string many, string rest) =>
        string.Create(CultureInfo.InvariantCulture, $"{notes.Length} {(notes.Length == 1 ? one : many)} {rest}");

    private static string Where(ImmutableArray<JournalNote> notes) => notes.Length switch
    {
        1 => string.Create(CultureInfo.InvariantCulture, $"line {notes[0].Line}"),
        <= 5 => "lines " + string.Join(", ", notes.Select(note => note.Line.ToString(CultureInfo.InvariantCulture))),
        _ => string.Create(CultureInfo.InvariantCulture, $"lines {notes[0].Line} to {notes[^1].Line}"),
    };

    /// <summary>How long nothing is known of what happened: the clock ticks ten times a second.</summary>
    private static string Silence(Recording recording)
    {
        double seconds = 0.0;
        int holes = 0;
        for (int i = 1; i < recording.Envelopes.Length; i++)
        {
            TimeSpan between = recording.Envelopes[i].Elapsed - recording.Envelopes[i - 1].Elapsed;
            if (between > TickGap)
            {
                seconds += between.TotalSeconds;
                holes++;
            }
        }

        double all = (recording.Envelopes[^1].Elapsed - recording.Envelopes[0].Elapsed).TotalSeconds;
        return holes == 0 ? "" : string.Create(CultureInfo.InvariantCulture, $"nothing is known of {seconds:0.0} s of the {all:0.0} s of the session");
    }
}
