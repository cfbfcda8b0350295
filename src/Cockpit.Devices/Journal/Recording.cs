using System.Collections.Immutable;
using Cockpit.Core.Formats;
using Cockpit.Session.Events;

namespace Cockpit.Devices.Journal;

/// <summary>A whole session in memory.</summary>
/// <param name="Header">Its first line; null when it is lost.</param>
/// <param name="Envelopes">Its events in their order.</param>
/// <param name="Notes">What is not as it should be; empty when all of it is good.</param>
public sealed record Recording(JournalHeader? Header, ImmutableArray<Envelope> Envelopes, ImmutableArray<JournalNote> Notes)
{
    /// <summary>Most events that are held in memory: more than a day of them, about 1 GB.</summary>
    public const int MostEvents = 4_000_000;

    /// <summary>Notes kept of one recording; a file that is damaged all over is not told line by line.</summary>
    public const int MostNotes = 1000;

    /// <summary>Whether the program came to its end in order; a session without that is as good, but was cut off.</summary>
    public bool EndedInOrder => Envelopes is [.., { Event: SessionClosed }];

    /// <summary>Whether nothing of it is damaged or missing; events of a newer program are no damage, nor is a session that was cut off between two lines.</summary>
    public bool IsUndamaged => Notes.All(note => note.Kind == JournalNoteKind.UnknownType);

    /// <summary>Reads all of a session.</summary>
    /// <param name="path">Folder of the session, or its journal.</param>
    /// <returns>The session, or one sentence why there is none.</returns>
    public static Parsed<Recording> ReadAll(string path)
    {
        if (!JournalReader.Open(path).Try(out JournalReader? reader, out ParseError? error))
        {
            return error;
        }

        using (reader)
        {
            return ReadAll(reader, path);
        }
    }

    /// <summary>Reads all of a session from an open journal.</summary>
    /// <param name="reader">The journal; the caller closes it.</param>
    /// <param name="path">What it is called in errors.</param>
    /// <returns>The session, or one sentence why there is none.</returns>
    public static Parsed<Recording> ReadAll(JournalReader reader, string path)
    {
        ArgumentNullException.ThrowIfNull(reader);
        List<JournalNote> notes = [];
        EventOrder order = new(note => AddNote(notes, note));
        try
        {
            foreach ((long line, JournalRecord record) in reader.Read(note => AddNote(notes, note)))
            {
                if (order.Count == MostEvents)
                {
                    return new ParseError(path, 0, 0, $"the session has more than {MostEvents} events; that is too many to hold at once");
                }

                order.Add(line, record);
            }
        }
        catch (IOException failure)
        {
            return new ParseError(path, 0, 0, $"the session cannot be read ({FileWords.Of(failure)})");
        }

        ImmutableArray<Envelope> envelopes = order.Ordered();
        return envelopes.IsEmpty
            ? new ParseError(path, 0, 0, "the session holds no events")
            : new Recording(reader.Header, envelopes, [.. notes.OrderBy(note => note.Line)]);
    }

    private static void AddNote(List<JournalNote> notes, JournalNote note)
    {
        if (notes.Count < MostNotes)
        {
            notes.Add(note);
        }
    }
}
