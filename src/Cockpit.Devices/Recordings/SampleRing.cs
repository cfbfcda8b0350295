using Cockpit.Devices.Ports;

namespace Cockpit.Devices.Recordings;

/// <summary>Bytes of samples on their way from a port to whoever measures them.</summary>
/// <remarks>
/// Holds so many seconds; when they are full, what is held is thrown away and counted, so that what comes out is never old and a sender never
/// waits; only where the bytes are finite (a pipe) the sender waits. A connection that begins anew begins with a whole sample. One thread puts
/// in, one takes out.
/// </remarks>
public sealed class SampleRing : IPortListener, IDisposable
{
    private readonly Lock _gate = new();
    private readonly byte[] _ring;
    private readonly int _sampleBytes;
    private readonly SemaphoreSlim _news = new(0);
    private readonly AutoResetEvent _room = new(initialState: false);
    private readonly ISourceWatcher _watcher;
    private readonly bool _waits;
    private volatile bool _givenUp;
    private int _start;
    private int _count;
    private long _dropped;
    private bool _broken;

    /// <summary>Makes an empty ring.</summary>
    /// <param name="bytesPerSecond">Bytes of a second.</param>
    /// <param name="sampleBytes">Bytes of a sample.</param>
    /// <param name="seconds">Seconds that it holds.</param>
    /// <param name="waits">The sender may wait: nothing is thrown away.</param>
    /// <param name="watcher">Told when a sender comes or goes.</param>
    public SampleRing(double bytesPerSecond, int sampleBytes, double seconds, bool waits, ISourceWatcher watcher)
    {
        _sampleBytes = sampleBytes;
        _ring = new byte[(int)Math.Min(Math.Max(bytesPerSecond * seconds, 1 << 16), 1 << 29) / sampleBytes * sampleBytes];
        _waits = waits;
        _watcher = watcher;
    }

    /// <summary>Whether a sender has gone after it had sent something.</summary>
    public bool SenderGone { get; private set; }

    /// <summary>Bytes that came.</summary>
    public long Received { get; private set; }

    /// <inheritdoc/>
    public void Connected(string where, bool startsInside = false)
    {
        lock (_gate)
        {
            SenderGone = false;
            _broken = Received > 0;
            _count -= _count % _sampleBytes;
        }

        _watcher.Comes(where);
    }

    /// <inheritdoc/>
    public void Lost(string reason)
    {
        lock (_gate)
        {
            SenderGone = Received > 0;
        }

        _watcher.Gone(reason);
        _news.Release();
    }

    /// <inheritdoc/>
    void IPortListener.Received(ReadOnlySpan<byte> bytes, bool wholeRecords)
    {
        // A datagram that ends inside a sample would exchange I and Q in all that follow: that sample is lost.
        int cut = wholeRecords ? bytes.Length % _sampleBytes : 0;
        bytes = bytes[..^cut];
        if (cut > 0)
        {
            lock (_gate)
            {
                _dropped += _sampleBytes;
            }
        }

        while (bytes.Length > 0)
        {
            int taken;
            lock (_gate)
            {
                if (!_waits)
                {
                    DropFor(bytes.Length);
                }

                taken = Math.Min(bytes.Length, _ring.Length - _count);
                if (taken < bytes.Length && !_waits)
                {
                    // More at once than the ring holds: only the newest of it.
                    int passed = (bytes.Length - taken + _sampleBytes - 1) / _sampleBytes * _sampleBytes;
                    _dropped += passed;
                    bytes = bytes[passed..];
                    taken = bytes.Length;
                }

                Put(bytes[..taken]);
            }

            bytes = bytes[taken..];
            if (_news.CurrentCount == 0)
            {
                _news.Release();
            }

            if (bytes.Length > 0 && !_givenUp)
            {
                _room.WaitOne(TimeSpan.FromMilliseconds(100));
            }

            if (_givenUp)
            {
                return;
            }
        }
    }

    /// <summary>Nobody takes anything any more: a sender that waits goes on.</summary>
    public void GiveUp()
    {
        _givenUp = true;
        _room.Set();
    }

    /// <summary>Waits until something may be there.</summary>
    public Task WaitAsync(TimeSpan atMost, CancellationToken stop) => _news.WaitAsync(atMost, stop);

    /// <summary>Takes whole samples out.</summary>
    /// <param name="buffer">Written.</param>
    /// <param name="missing">Samples that are missing before these; -1 = a new connection, nobody knows.</param>
    /// <returns>Bytes.</returns>
    public int Take(Span<byte> buffer, out long missing)
    {
        lock (_gate)
        {
            int count = Math.Min(_count, buffer.Length);
            count -= count % _sampleBytes;
            if (count == 0)
            {
                // What is missing is told with the samples that it is missing before.
                missing = 0;
                return 0;
            }

            missing = _broken ? -1 : _dropped / _sampleBytes;
            _broken = false;
            _dropped = 0;
            int first = Math.Min(count, _ring.Length - _start);
            _ring.AsSpan(_start, first).CopyTo(buffer);
            _ring.AsSpan(0, count - first).CopyTo(buffer[first..]);
            _start = (_start + count) % _ring.Length;
            _count -= count;
            _room.Set();
            return count;
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        _news.Dispose();
        _room.Dispose();
    }

    // Whole samples only, so that I and Q are not exchanged afterwards.
    private void DropFor(int coming)
    {
        if (coming + _count > _ring.Length)
        {
            int whole = _count - (_count % _sampleBytes);
            _dropped += whole;
            _start = (_start + whole) % _ring.Length;
            _count -= whole;
        }
    }

    private void Put(ReadOnlySpan<byte> bytes)
    {
        int end = (_start + _count) % _ring.Length;
        int first = Math.Min(bytes.Length, _ring.Length - end);
        bytes[..first].CopyTo(_ring.AsSpan(end));
        bytes[first..].CopyTo(_ring);
        _count += bytes.Length;
        Received += bytes.Length;
    }
}
