using System.Globalization;
using System.Text.Json;
using Cockpit.Core.Formats;
using Cockpit.Session.Bus;
using Cockpit.Session.Events;

namespace Cockpit.Devices.Journal;

/// <summary>Brings waiting events to the file, step by step; a failing disk is told, tried again and never throws.</summary>
/// <remarks><see cref="Add"/> is safe from any thread, everything else from one.</remarks>
public sealed class JournalPump : IDisposable
{
    /// <summary>Written events are brought to the disk at least this often.</summary>
    public static readonly TimeSpan SyncPeriod = TimeSpan.FromSeconds(1);

    /// <summary>A failed disk is tried again after this.</summary>
    public static readonly TimeSpan RetryPeriod = TimeSpan.FromSeconds(1);

    /// <summary>Most events that wait while the disk fails: more than ten minutes of a pass.</summary>
    public const int DefaultCapacity = 32768;

    private const int LargestBatchBytes = 256 * 1024;

    private readonly JournalStore _store;
    private readonly IEventSink _sink;
    private readonly TimeProvider _time;
    private readonly JournalQueue _queue;
    private readonly HashSet<Type> _unwritable = [];
    private int _taken;
    private long _notWritten;
    private bool _urgent;
    private long _lastSync;
    private long _toldAt;
    private string? _trouble;
    private string? _reason;

    /// <summary>Makes a pump; nothing is opened yet.</summary>
    /// <param name="file">Where the lines go.</param>
    /// <param name="sink">Where trouble is told.</param>
    /// <param name="time">For the periods above, and the header's date.</param>
    /// <param name="programVersion">For the header.</param>
    /// <param name="capacity">Most events that wait.</param>
    public JournalPump(IJournalFile file, IEventSink sink, TimeProvider time, string programVersion, int capacity = DefaultCapacity)
    {
        _store = new JournalStore(file);
        _sink = sink;
        _time = time;
        new JournalHeader(JournalHeader.CurrentFormat, programVersion, time.GetUtcNow().ToUniversalTime()).Write(_store.Lines);
        _queue = new JournalQueue(capacity);
        _lastSync = time.GetTimestamp();
    }

    /// <summary>Whether every event given so far is on the disk; safe from any thread.</summary>
    public bool IsIdle => _queue.Pending == 0;

    /// <summary>Path of the journal, for people.</summary>
    public string Path => _store.Path;

    /// <summary>How long <see cref="Step"/> may be put off, if no event comes.</summary>
    public TimeSpan NextStepIn => !_store.IsOpen && _trouble is not null
        ? Left(_toldAt, RetryPeriod)
        : _store.UnsafeBytes > 0 ? Left(_lastSync, SyncPeriod) : SyncPeriod;

    /// <summary>How it stands with the journal: what is missing from it now, and why.</summary>
    public JournalOutcome Outcome => new(_queue.Dropped + _queue.Pending + _notWritten + _store.LostLines, _reason, null);

    /// <summary>Takes an event; returns at once.</summary>
    public void Add(Envelope envelope) => _queue.Add(envelope);

    /// <summary>Opens the file and writes the header, so that a folder that cannot be written is known before the pass.</summary>
    /// <exception cref="IOException">It could not be written.</exception>
    /// <exception cref="UnauthorizedAccessException">It may not be written.</exception>
    public void Open()
    {
        _store.Ensure();
        _store.WriteOut();
    }

    /// <summary>Writes what waits, and syncs when it is due. Never throws for the disk.</summary>
    /// <param name="finish">Sync now, whatever the time.</param>
    public void Step(bool finish = false)
    {
        if (!_store.IsOpen && _trouble is not null && Left(_toldAt, RetryPeriod) > TimeSpan.Zero && !finish)
        {
            return;
        }

        try
        {
            Ensure();
            while (TakeBatch())
            {
                _store.WriteOut();
            }

            SyncWhenDue(finish);
            if (finish)
            {
                Ensure();
            }

            Recovered();
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException or NotSupportedException)
        {
            Failed(failure);
        }
    }

    /// <summary>Writes what waits for the last time; what the disk does not take goes to another file, with all that came before.</summary>
    /// <param name="rescue">The other file; made only if it is needed.</param>
    /// <returns>What became of the journal.</returns>
    public JournalOutcome Finish(Func<IJournalFile> rescue)
    {
        ArgumentNullException.ThrowIfNull(rescue);
        Step(finish: true);
        JournalOutcome outcome = Outcome;
        if (outcome.IsWhole || _reason is null)
        {
            return outcome;
        }

        try
        {
            while (TakeBatch(all: true))
            {
                // Until nothing waits any more.
            }

            using IJournalFile other = rescue();
            _store.CopyTo(other);
            return outcome with { Rescue = other.Path };
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException or NotSupportedException)
        {
            return outcome with { Trouble = $"{outcome.Trouble}; nor could it be put elsewhere: {FileWords.Of(failure)}" };
        }
    }

    /// <inheritdoc/>
    public void Dispose() => _store.Dispose();

    /// <summary>Lets the file go, tells the trouble if it is a new one, and waits for the next try.</summary>
    internal void Failed(Exception failure)
    {
        _store.Close();
        _reason = FileWords.Of(failure);
        Tell($"{_store.Path} cannot be written: {_reason}; tried again every second");
    }

    private void Ensure()
    {
        if (_store.Ensure() is { } mended)
        {
            Tell(mended);
            _store.WriteOut();
        }
    }

    private bool TakeBatch(bool all = false)
    {
        int before = _store.UnsafeBytes;
        while (_store.UnsafeBytes - before < LargestBatchBytes && _queue.TryTake(out Envelope? envelope))
        {
            _taken++;
            Append(envelope);
        }

        return all ? _store.UnsafeBytes > before : _store.HasUnwritten;
    }

    private void Append(Envelope envelope)
    {
        try
        {
            JournalLine.Write(_store.Lines, envelope);
            _urgent |= envelope.Event is OperatorPressed or SessionOpened or SessionClosed or ClockCorrected;
        }
        catch (Exception failure) when (failure is JsonException or NotSupportedException or ArgumentException)
        {
            // Only a mistake of ours leads here; the line is written whole or not at all, and the others go on.
            _notWritten++;
            if (_unwritable.Add(envelope.Event.GetType()))
            {
                _sink.Publish(Sources.Program, new PartFailed("journal", $"an event could not be written: {failure.Message}"));
            }
        }
    }

    private void SyncWhenDue(bool finish)
    {
        if (_store.UnsafeBytes == 0)
        {
            Finished();
        }
        else if (_urgent || finish || Left(_lastSync, SyncPeriod) <= TimeSpan.Zero)
        {
            _store.Sync();
            _urgent = false;
            _lastSync = _time.GetTimestamp();
            Finished();
        }
    }

    private void Finished()
    {
        _queue.Finish(_taken);
        _taken = 0;
    }

    private void Tell(string trouble)
    {
        _toldAt = _time.GetTimestamp();
        if (!string.Equals(trouble, _trouble, StringComparison.Ordinal))
        {
            _trouble = trouble;
            _sink.Publish(Sources.Program, new JournalChanged(trouble));
        }
    }

    private void Recovered()
    {
        _reason = null;

        // What was mended at once stays to be read for a moment.
        if (_trouble is null || Left(_toldAt, RetryPeriod) > TimeSpan.Zero)
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
