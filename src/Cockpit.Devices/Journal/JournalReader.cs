using System.Globalization;
using Cockpit.Core.Formats;
using Cockpit.Devices.Files;

namespace Cockpit.Devices.Journal;

/// <summary>Reads a journal as it stands, event by event; what is damaged is told and passed over.</summary>
/// <remarks>Memory: two buffers and one line. A journal that is still being written can be read up to its present end.</remarks>
public sealed class JournalReader : IDisposable
{
    /// <summary>Longest line that is read, bytes.</summary>
    public const int LongestLine = 1024 * 1024;

    /// <summary>Largest file that is read, bytes: the most events that are held, and as much again.</summary>
    public const long LargestFile = 2L * 1024 * 1024 * 1024;

    /// <summary>Most bytes that are unpacked of a packed journal; a larger one is not packed.</summary>
    public const long LargestUnpacked = 512L * 1024 * 1024;

    /// <summary>Lines without an event after which a file without a header is no session.</summary>
    private const int LinesWithoutEvent = 1000;

    private const int ChunkBytes = 32 * 1024;

    private readonly Stream _stream;
    private readonly LineFramer _framer = new(LongestLine);
    private readonly Queue<(long Number, byte[] Line)> _lines = new();
    private readonly HashSet<string> _unknownTypes = new(StringComparer.Ordinal);
    private readonly byte[] _chunk = new byte[ChunkBytes];
    private long _tooLong;
    private long _zeros;
    private long _zerosTold;
    private bool _atEnd;
    private bool _torn;

    private JournalReader(Stream stream) => _stream = stream;

    /// <summary>The first line; null when it is lost.</summary>
    public JournalHeader? Header { get; private set; }

    /// <summary>Opens the journal of a session.</summary>
    /// <param name="path">Folder of the session, or its journal.</param>
    /// <returns>The reader, or one sentence why this is not a session.</returns>
    public static Parsed<JournalReader> Open(string path)
    {
        string file = Directory.Exists(path) ? SessionFolder.JournalIn(path) ?? Path.Combine(path, SessionFolder.JournalName) : path;
        try
        {
            if (Unreadable(file) is { } why)
            {
                return new ParseError(path, 0, 0, why);
            }

            var stream = new FileStream(file, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete, bufferSize: 0);
            return Open(SessionFolder.IsPacked(file) ? new UnpackingStream(stream, LargestUnpacked) : stream, file);
        }
        catch (Exception failure) when (failure is FileNotFoundException or DirectoryNotFoundException)
        {
            string what = Directory.Exists(path) ? $"this folder is not a session: it has no {SessionFolder.JournalName}" : "there is no such session";
            return new ParseError(path, 0, 0, $"{what}; give the folder of a session");
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            return new ParseError(path, 0, 0, $"the session cannot be read ({FileWords.Of(failure)})");
        }
    }

    /// <summary>Opens a journal that is a stream of bytes.</summary>
    /// <param name="stream">Where the bytes come from; the reader owns it, and disposes it also when this is no journal.</param>
    /// <param name="source">What the stream is called in errors.</param>
    /// <exception cref="IOException">The stream could not be read.</exception>
    public static Parsed<JournalReader> Open(Stream stream, string source)
    {
        JournalReader reader = new(stream);
        if (reader.NextLine() is not { } first)
        {
            reader.Dispose();
            if (stream is UnpackingStream { Trouble: { } trouble })
            {
                return new ParseError(source, 0, 0, $"this is not a packed session: {trouble}");
            }

            return new ParseError(source, 1, 0, "this is not a session: there is no whole first line; give the folder of a session");
        }

        if (JournalHeader.Read(first.Line) is not { } header)
        {
            return reader.WithoutHeader(first, source);
        }

        if (header.Format != JournalHeader.CurrentFormat)
        {
            reader.Dispose();
            return new ParseError(source, 1, 0, string.Create(CultureInfo.InvariantCulture, $"the session is in format {header.Format}, this program reads format {JournalHeader.CurrentFormat}; use the version {header.ProgramVersion} that wrote it, or a newer one"));
        }

        reader.Header = header;
        return reader;
    }

    /// <summary>What each line holds, in the order of the file; can be gone through once.</summary>
    /// <param name="note">Called for everything that is not as it should be with a line by itself.</param>
    /// <exception cref="IOException">The file could not be read any further.</exception>
    internal IEnumerable<(long Line, JournalRecord Record)> Read(Action<JournalNote> note)
    {
        if (Header is null)
        {
            note(new(1, JournalNoteKind.LostHeader, "the header is lost; the events behind it are read"));
        }

        while (NextLine() is (var number, { } line))
        {
            NoteTooLong(number, note);
            NoteZeros(number, note);
            JournalRecord record = EventLimits.Limited(JournalLine.Read(line));
            if (Accept(number, record, note))
            {
                yield return (number, record);
            }
        }

        NoteTooLong(_framer.Lines, note);
        NoteZeros(_framer.Lines, note);
        if (_stream is UnpackingStream { Trouble: { } trouble })
        {
            note(new(_framer.Lines, JournalNoteKind.Damaged, trouble));
        }
    }

    /// <inheritdoc/>
    public void Dispose() => _stream.Dispose();

    /// <summary>Why a file is not even opened; null when it may be.</summary>
    private static string? Unreadable(string file) => FileStatus.Of(file, follow: true) switch
    {
        { Kind: FileKind.Pipe } => "this is a pipe, not the file of a session; give the folder of a session",
        { Kind: FileKind.Device } => "this is a device, not the file of a session; give the folder of a session",
        { Length: > LargestFile } large => string.Create(CultureInfo.InvariantCulture, $"the file has {large.Length} bytes; a session of more than {LargestFile} bytes is not read"),
        _ => null,
    };

    // A session whose beginning was overwritten or cut away is one all the same: the first whole line that is an event tells.
    private Parsed<JournalReader> WithoutHeader((long Number, byte[] Line) first, string source)
    {
        List<(long Number, byte[] Line)> seen = [first];
        while (seen.Count <= LinesWithoutEvent && JournalLine.CheckProblem(seen[^1].Line) is not null && NextLine() is { } next)
        {
            seen.Add(next);
        }

        if (JournalLine.CheckProblem(seen[^1].Line) is not null)
        {
            Dispose();
            bool torn = _torn && seen.Count == 1;
            return new ParseError(source, 1, 0, torn
                ? "this is not a session: there is no whole first line; give the folder of a session"
                : "this is not a session: the first line is not the header of a journal, and no event follows; give the folder of a session");
        }

        foreach ((long, byte[]) later in _lines.ToArray())
        {
            seen.Add(later);
        }

        _lines.Clear();
        seen.ForEach(_lines.Enqueue);
        return this;
    }

    private bool Accept(long number, JournalRecord record, Action<JournalNote> note)
    {
        if (record.Damage is { } damage)
        {
            bool torn = _torn && _lines.Count == 0;
            note(torn
                ? new(number, JournalNoteKind.TornEnd, "the last line was cut off, as by a crash; it is passed over")
                : new(number, JournalNoteKind.Damaged, $"the line is damaged ({damage}); it is passed over"));
            return false;
        }

        if (record.Wild is { } wild)
        {
            note(new(number, JournalNoteKind.Wild, record.Envelope is null ? $"{wild}, which cannot be; the line is passed over" : $"{wild}"));
        }

        if (record.UnknownType is { } unknown && _unknownTypes.Add(unknown))
        {
            note(new(number, JournalNoteKind.UnknownType, $"events of type {unknown} are not known to this version of the program; they are passed over"));
        }

        return true;
    }

    private void NoteZeros(long number, Action<JournalNote> note)
    {
        if (_zeros > _zerosTold)
        {
            note(new(number, JournalNoteKind.Damaged, string.Create(CultureInfo.InvariantCulture, $"{_zeros - _zerosTold} zero bytes stand at or after this line, as after a cut; what was there is lost")));
            _zerosTold = _zeros;
        }
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
            _framer.Add(WithoutZeros(_chunk.AsSpan(0, count)), Take);
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

    // A file that was cut off while it was written has a hole of zeros; no line of JSON holds one.
    private Span<byte> WithoutZeros(Span<byte> chunk)
    {
        int kept = 0;
        foreach (byte value in chunk)
        {
            if (value != 0)
            {
                chunk[kept++] = value;
            }
        }

        _zeros += chunk.Length - kept;
        return chunk[..kept];
    }
}
