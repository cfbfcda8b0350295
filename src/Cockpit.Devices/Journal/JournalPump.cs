using System.Buffers;
using System.Globalization;
using System.Text.Json;
using Cockpit.Session.Bus;
using Cockpit.Session.Events;

namespace Cockpit.Devices.Journal;

/// <summary>Brings waiting events to the file, step by step; a failing disk is told, tried again and never throws.</summary>
/// <remarks>
/// What is written but not yet surely on the disk is kept, and written again at the same place after a failure: a line that was cut
/// off by a full disk is completed, not doubled. <see cref="Add"/> is safe from any thread, <see cref="Step"/> from one.
/// </remarks>
public sealed class JournalPump : IDisposable
{
    /// <summary>Written events are brought to the disk at least this often.</summary>
    public static readonly TimeSpan SyncPeriod = TimeSpan.FromSeconds(1);

    /// <summary>A failed disk is tried again after this.</summary>
    public static readonly TimeSpan RetryPeriod = TimeSpan.FromSeconds(1);

    /// <summary>Most events that wait while the disk fails: more than ten minutes of a pass.</summary>
    public const int DefaultCapacity = 32768;

    private const int LargestBatchBytes = 256 * 1024;

    private readonly IJournalFile _file;
    private readonly IEventSink _sink;
    private readonly TimeProvider _time;
    private readonly JournalHeader _header;
    private readonly JournalQueue _queue;
    private readonly HashSet<Type> _unwritable = [];
    private readonly ArrayBufferWriter<byte> _unsafe = new(4096);
    private byte[] _beginning = [];
    private long _safeLength;
    private int _written;
    private int _taken;
    private bool _open;
    private bool _urgent;
    private long _lastSync;
    private long _failedAt;
    private string? _trouble;

    /// <summary>Makes a pump; nothing is opened yet.</summary>
    /// <param name="file">Where the lines go.</param>
    /// <param name="sink">Where trouble is told.</param>
    /// <param name="time">For the periods above, and the header's date.</param>
    /// <param name="programVersion">For the header.</param>
    /// <param name="capacity">Most events that wait.</param>
    public JournalPump(IJournalFile file, IEventSink sink, TimeProvider time, string programVersion, int capacity = DefaultCapacity)
    {
        _file = file;
        _sink = sink;
        _time = time;
        _header = new JournalHeader(JournalHeader.CurrentFormat, programVersion, time.GetUtcNow().ToUniversalTime());
        _queue = new JournalQueue(capacity);
        _lastSync = time.GetTimestamp();
    }

    /// <summary>Whether every event given so far is on the disk; safe from any thread.</summary>
    public bool IsIdle => _queue.Pending == 0;

    /// <summary>How long <see cref="Step"/> may be put off, if no event comes.</summary>
    public TimeSpan NextStepIn => !_open && _trouble is not null
        ? Left(_failedAt, RetryPeriod)
        : _unsafe.WrittenCount > 0 ? Left(_lastSync, SyncPeriod) : SyncPeriod;

    /// <summary>Takes an event; returns at once.</summary>
    public void Add(Envelope envelope) => _queue.Add(envelope);

    /// <summary>Opens the file and writes the header, so that a folder that cannot be written is known before the pass.</summary>
    /// <exception cref="IOException">It could not be written.</exception>
    /// <exception cref="UnauthorizedAccessException">It may not be written.</exception>
    public void Open()
    {
        long length = _file.Open();
        _open = true;
        if (_beginning.Length == 0)
        {
            if (length > 0)
            {
                _open = false;
                _file.Close();
                throw new IOException("there is a journal already, and a journal is never written over");
            }

            _header.Write(_unsafe);
            _beginning = _unsafe.WrittenSpan.ToArray();
        }
        else if (length < _safeLength)
        {
            StartAgain();
        }

        _written = 0;
        WriteOut();
    }

    /// <summary>Writes what waits, and syncs when it is due. Never throws for the disk.</summary>
    /// <param name="finish">Sync now, whatever the time.</param>
    public void Step(bool finish = false)
    {
        if (!_open && _trouble is not null && Left(_failedAt, RetryPeriod) > TimeSpan.Zero && !finish)
        {
            return;
        }

        try
        {
            if (!_open)
            {
                Open();
            }

            while (TakeBatch())
            {
                WriteOut();
            }

            if (_unsafe.WrittenCount > 0 && (_urgent || finish || Left(_lastSync, SyncPeriod) <= TimeSpan.Zero))
            {
                Sync();
            }
            else if (_unsafe.WrittenCount == 0)
            {
                Finished();
            }

            Recovered();
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException or NotSupportedException)
        {
            Failed(failure);
        }
    }

    /// <inheritdoc/>
    public void Dispose() => _file.Dispose();

    private bool TakeBatch()
    {
        int before = _unsafe.WrittenCount;
        while (_unsafe.WrittenCount - before < LargestBatchBytes && _queue.TryTake(out Envelope? envelope))
        {
            _taken++;
            Append(envelope);
        }

        return _unsafe.WrittenCount > _written;
    }

    private void Append(Envelope envelope)
    {
        int start = _unsafe.WrittenCount;
        try
        {
            JournalLine.Write(_unsafe, envelope);
            _urgent |= envelope.Event is OperatorPressed or SessionOpened or SessionClosed or ClockCorrected;
            if (envelope.Event is SessionOpened)
            {
                _beginning = [.. _beginning, .. _unsafe.WrittenSpan[start..]];
            }
        }
        catch (Exception failure) when (failure is JsonException or NotSupportedException or ArgumentException)
        {
            // Only a mistake of ours leads here; the line is written whole or not at all, and the others go on.
            if (_unwritable.Add(envelope.Event.GetType()))
            {
                _sink.Publish(Sources.Program, new PartFailed("journal", $"an event could not be written: {failure.Message}"));
            }
        }
    }

    private void WriteOut()
    {
        _file.Write(_unsafe.WrittenSpan[_written..], _safeLength + _written);
        _written = _unsafe.WrittenCount;
    }

    private void Sync()
    {
        _file.Sync();
        _safeLength += _unsafe.WrittenCount;
        _unsafe.ResetWrittenCount();
        _written = 0;
        _urgent = false;
        _lastSync = _time.GetTimestamp();
        Finished();
    }

    private void Finished()
    {
        _queue.Finish(_taken);
        _taken = 0;
    }

    /// <summary>The file is not what was written: begin a new one with what every reader needs first, then what is at hand.</summary>
    private void StartAgain()
    {
        byte[] atHand = _unsafe.WrittenSpan.ToArray();
        _unsafe.ResetWrittenCount();
        _unsafe.Write(_beginning);
        _unsafe.Write(atHand);
        _safeLength = 0;
    }

    /// <summary>Lets the file go, tells the trouble if it is a new one, and waits for the next try.</summary>
    internal void Failed(Exception failure)
    {
        _file.Close();
        _open = false;
        _failedAt = _time.GetTimestamp();
        string trouble = $"{_file.Path} cannot be written: {DiskWords.Of(failure)}; tried again every second";
        if (!string.Equals(trouble, _trouble, StringComparison.Ordinal))
        {
            _trouble = trouble;
            _sink.Publish(Sources.Program, new JournalChanged(trouble));
        }
    }

    private void Recovered()
    {
        if (_trouble is null)
        {
            return;
        }

        _trouble = null;
        if (_queue.TakeDropped() is > 0 and long lost)
        {
            string gap = string.Create(CultureInfo.InvariantCulture, $"the journal is written again, but {lost} events are missing from it");
            _sink.Publish(Sources.Program, new JournalChanged(gap));
        }

        _sink.Publish(Sources.Program, new JournalChanged(null));
    }

    private TimeSpan Left(long since, TimeSpan period)
    {
        TimeSpan left = period - _time.GetElapsedTime(since);
        return left > TimeSpan.Zero ? left : TimeSpan.Zero;
    }
}
