using System.Globalization;
using Cockpit.Core.Formats;
using Cockpit.Session.Events;

namespace Cockpit.Devices.Journal;

/// <summary>Reads a journal as it stands, event by event; what is damaged is told and passed over.</summary>
/// <remarks>Memory: two buffers and one line. A journal that is still being written can be read up to its present end.</remarks>
public sealed class JournalReader : IDisposable
{
    /// <summary>Longest line that is read, bytes.</summary>
    public const int LongestLine = 1024 * 1024;

    private const int ChunkBytes = 32 * 1024;

    private readonly Stream _stream;
    private readonly LineFramer _framer = new(LongestLine);
    private readonly Queue<(long Number, byte[] Line)> _lines = new();
    private readonly HashSet<string> _unknownTypes = new(StringComparer.Ordinal);
    private readonly byte[] _chunk = new byte[ChunkBytes];
    private long _tooLong;
    private long _lastSequence;
    private bool _atEnd;
    private bool _torn;

    private JournalReader(Stream stream)
    {
        _stream = stream;
        Header = null!;
    }

    /// <summary>The first line.</summary>
    public JournalHeader Header { get; private set; }

    /// <summary>Opens the journal of a session.</summary>
    /// <param name="path">Folder of the session, or its journal.</param>
    /// <returns>The reader, or one sentence why this is not a session.</returns>
    public static Parsed<JournalReader> Open(string path)
    {
        string file = Directory.Exists(path) ? Path.Combine(path, SessionFolder.JournalName) : path;
        try
        {
            return Open(new FileStream(file, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete, bufferSize: 0), file);
        }
        catch (Exception failure) when (failure is FileNotFoundException or DirectoryNotFoundException)
        {
            string what = Directory.Exists(path) ? $"this folder is not a session: it has no {SessionFolder.JournalName}" : "there is no such session";
            return new ParseError(path, 0, 0, $"{what}; give the folder of a session");
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            return new ParseError(path, 0, 0, $"the session cannot be read ({DiskWords.Of(failure)})");
        }
    }

    /// <summary>Opens a journal that is a stream of bytes.</summary>
    /// <param name="stream">Where the bytes come from; the reader owns it, and disposes it also when this is no journal.</param>
    /// <param name="source">What the stream is called in errors.</param>
    /// <exception cref="IOException">The stream could not be read.</exception>
    public static Parsed<JournalReader> Open(Stream stream, string source)
    {
        JournalReader reader = new(stream);
        if (reader.NextLine() is not (_, { } first) || reader._torn)
        {
            reader.Dispose();
            return new ParseError(source, 1, 0, "this is not a session: there is no whole first line; give the folder of a session");
        }

        if (JournalHeader.Read(first) is not { } header)
        {
            reader.Dispose();
            return new ParseError(source, 1, 0, "this is not a session: the first line is not the header of a journal; give the folder of a session");
        }

        if (header.Format != JournalHeader.CurrentFormat)
        {
            reader.Dispose();
            return new ParseError(source, 1, 0, string.Create(CultureInfo.InvariantCulture, $"the session is in format {header.Format}, this program reads format {JournalHeader.CurrentFormat}; use the version {header.ProgramVersion} that wrote it, or a newer one"));
        }

        reader.Header = header;
        return reader;
    }

    /// <summary>The events in their order; can be gone through once.</summary>
    /// <param name="note">Called for everything that is not as it should be.</param>
    /// <exception cref="IOException">The file could not be read any further.</exception>
    public IEnumerable<Envelope> Read(Action<JournalNote> note)
    {
        while (NextLine() is (var number, { } line))
        {
            NoteTooLong(number, note);
            if (Accept(number, JournalLine.Read(line), note) is { } envelope)
            {
                yield return envelope;
            }
        }

        NoteTooLong(_framer.Lines, note);
    }

    /// <inheritdoc/>
    public void Dispose() => _stream.Dispose();

    private Envelope? Accept(long number, JournalRecord record, Action<JournalNote> note)
    {
        if (record.Damage is { } damage)
        {
            bool torn = _torn && _lines.Count == 0;
            note(torn
                ? new(number, JournalNoteKind.TornEnd, "the last line was cut off, as by a crash; it is passed over")
                : new(number, JournalNoteKind.Damaged, $"the line is damaged ({damage}); it is passed over"));
            return null;
        }

        if (record.Sequence <= _lastSequence)
        {
            note(new(number, JournalNoteKind.OutOfOrder, string.Create(CultureInfo.InvariantCulture, $"event {record.Sequence} comes after event {_lastSequence}; it is passed over")));
            return null;
        }

        if (record.Sequence != _lastSequence + 1)
        {
            note(new(number, JournalNoteKind.Gap, string.Create(CultureInfo.InvariantCulture, $"events {_lastSequence + 1} to {record.Sequence - 1} are missing")));
        }

        _lastSequence = record.Sequence;
        if (record.UnknownType is { } unknown && _unknownTypes.Add(unknown))
        {
            note(new(number, JournalNoteKind.UnknownType, $"events of type {unknown} are not known to this version of the program; they are passed over"));
        }

        return record.Envelope;
    }

    private void NoteTooLong(long number, Action<JournalNote> note)
    {
        if (_framer.TooLong > _tooLong)
        {
            _tooLong = _framer.TooLong;
            note(new(number, JournalNoteKind.Damaged, $"a line at or before this one is longer than {LongestLine} bytes; it is passed over"));
        }
    }

    private (long Number, byte[] Line)? NextLine()
    {
        while (_lines.Count == 0 && !_atEnd)
        {
            int count = _stream.Read(_chunk);
            _framer.Add(_chunk.AsSpan(0, count), Take);
            if (count == 0)
            {
                _atEnd = true;
                _torn = _framer.HasPartial;
                _framer.EndOfRecord(Take);
            }
        }

        return _lines.TryDequeue(out (long, byte[]) next) ? next : null;

        void Take(ReadOnlySpan<byte> line) => _lines.Enqueue((_framer.Lines, line.ToArray()));
    }
}
