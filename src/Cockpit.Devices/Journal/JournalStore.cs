using System.Buffers;
using System.Globalization;

namespace Cockpit.Devices.Journal;

/// <summary>The lines of a journal on their way to the disk: what is written, what is surely there, and all of it once more in memory.</summary>
/// <remarks>
/// What is not yet surely on the disk is written again at the same place after a failure, so a line that was cut off by a full disk
/// is completed, not doubled. When the file under the name is no longer the one that was written, it is written again whole.
/// </remarks>
internal sealed class JournalStore(IJournalFile file) : IDisposable
{
    private readonly ArrayBufferWriter<byte> _unsafe = new(4096);
    private readonly JournalCopy _held = new();
    private long _safeLength;
    private long _reached;
    private int _written;
    private bool _begun;
    private bool _open;
    private bool _rewriting;

    /// <summary>Path for people.</summary>
    public string Path => file.Path;

    /// <summary>Where whole lines are appended.</summary>
    public IBufferWriter<byte> Lines => _unsafe;

    /// <summary>Bytes that are not yet surely on the disk.</summary>
    public int UnsafeBytes => _unsafe.WrittenCount;

    /// <summary>Whether some of them are not even in the file.</summary>
    public bool HasUnwritten => _unsafe.WrittenCount > _written;

    /// <summary>Whether the file is open.</summary>
    public bool IsOpen => _open;

    /// <summary>Lines of before that are missing from the file, because they were neither in it any more nor held.</summary>
    public long LostLines { get; private set; }

    /// <summary>Makes sure that the file under the name is open and is the one that was written.</summary>
    /// <returns>Null when it was; else one sentence: what had happened to it, and that it is written again.</returns>
    public string? Ensure()
    {
        JournalPlace place = file.Look();
        if (!_begun)
        {
            Begin(place);
            return null;
        }

        if (_rewriting || Wrong(place) is not null)
        {
            return WriteAgain(place, Wrong(place) ?? "was cut off");
        }

        if (!_open)
        {
            file.Open();
            _open = true;
            _written = 0;
        }

        return null;
    }

    /// <summary>Writes the lines that are not in the file yet.</summary>
    public void WriteOut()
    {
        _reached = Math.Max(_reached, _safeLength + _unsafe.WrittenCount);
        file.Write(_unsafe.WrittenSpan[_written..], _safeLength + _written);
        _written = _unsafe.WrittenCount;
    }

    /// <summary>Brings what is written to the disk itself.</summary>
    public void Sync()
    {
        file.Sync();
        _held.Add(_unsafe.WrittenSpan);
        _safeLength += _unsafe.WrittenCount;
        _unsafe.ResetWrittenCount();
        _written = 0;
    }

    /// <summary>Writes everything that is held, and what is not yet safe, to another file.</summary>
    public void CopyTo(IJournalFile other)
    {
        other.Open();
        long length = WriteHeld(other);
        other.Write(_unsafe.WrittenSpan, length);
        other.Sync();
        other.Close();
    }

    /// <summary>Lets the file go until <see cref="Ensure"/>.</summary>
    public void Close()
    {
        file.Close();
        _open = false;
    }

    /// <inheritdoc/>
    public void Dispose() => file.Dispose();

    private void Begin(JournalPlace place)
    {
        if (place.Kind != JournalPlaceKind.Nothing)
        {
            throw new IOException("there is a journal already, and a journal is never written over");
        }

        file.Open();
        _begun = _open = true;
    }

    private string? Wrong(JournalPlace place) => place switch
    {
        { Kind: JournalPlaceKind.Nothing } => "was removed",
        { Kind: JournalPlaceKind.Other } => "was replaced by another file",
        _ when place.Length < _safeLength + _written => "was cut off",
        _ when place.Length > _reached => "was written to by another program",
        _ => null,
    };

    private string WriteAgain(JournalPlace place, string wrong)
    {
        Close();

        // Only what is shorter than ours holds nothing that is not ours.
        bool keep = place.Kind == JournalPlaceKind.Other || (place.Kind == JournalPlaceKind.Ours && place.Length > _reached);
        string kept = keep ? $"; what was there is now {file.MoveAside()}" : "";
        _rewriting = true;
        file.Open();
        _written = 0;
        _safeLength = 0;
        _safeLength = WriteHeld(file);
        _reached = Math.Max(_safeLength, keep ? 0 : place.Length);
        file.Sync();
        _open = true;
        _rewriting = false;
        LostLines = _held.DroppedLines;
        string whole = LostLines == 0 ? "whole" : string.Create(CultureInfo.InvariantCulture, $"without {LostLines} old events");
        return $"{file.Path} {wrong}{kept}; the session is written again {whole}";
    }

    private long WriteHeld(IJournalFile target)
    {
        long length = 0;
        foreach (byte[] part in _held.Parts())
        {
            target.Write(part, length);
            length += part.Length;
        }

        return length;
    }
}
