using Cockpit.Core.Dsp;
using Cockpit.Core.Formats.Recordings;
using Cockpit.Devices.Ports;

namespace Cockpit.Devices.Recordings;

/// <summary>Samples of a sender: TCP, UDP, standard input, a pipe with a name.</summary>
public sealed class PortSampleSource : ISampleSource
{
    private const double HeldSeconds = 2;
    private static readonly TimeSpan Look = TimeSpan.FromMilliseconds(100);

    /// <summary>A sender that is connected and says nothing for so long is told; one that sends in bursts has its longest pause more.</summary>
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(0.8);

    private static readonly TimeSpan LongestBurst = TimeSpan.FromSeconds(2.2);

    private readonly IPort _port;
    private readonly bool _follow;
    private readonly SampleRing _ring;
    private readonly CancellationTokenSource _stop = new();
    private readonly Task _running;
    private long _toSkip;
    private readonly TimeProvider _time;
    private readonly ISourceWatcher _watcher;
    private bool _begun;
    private bool _silent;
    private long _cameAt;
    private TimeSpan _pause;

    /// <summary>Opens a port and begins to take what it brings.</summary>
    /// <param name="port">The port; the source owns it.</param>
    /// <param name="layout">What the samples are.</param>
    /// <param name="waits">The port's bytes are finite and may wait: nothing is thrown away.</param>
    /// <param name="follow">Whether to go on when the sender is gone.</param>
    /// <param name="time">What its patience goes by.</param>
    /// <param name="watcher">Told when the sender comes or goes.</param>
    /// <exception cref="PortException">It cannot be had.</exception>
    public PortSampleSource(IPort port, SampleLayout layout, bool waits, bool follow, TimeProvider time, ISourceWatcher watcher)
    {
        _time = time;
        _watcher = watcher;
        _port = port;
        _follow = follow;
        Layout = layout;
        _toSkip = layout.Offset;
        _ring = new SampleRing(layout.BytesPerSecond, layout.Format.BytesPerSample(), HeldSeconds, waits, watcher);
        port.Open();
        _running = RunAsync();
    }

    /// <inheritdoc/>
    public SampleLayout Layout { get; }

    /// <inheritdoc/>
    public (long Done, long Whole)? Progress => null;

    /// <inheritdoc/>
    public async ValueTask<SamplesRead> ReadAsync(Memory<byte> buffer, CancellationToken stop)
    {
        while (true)
        {
            bool gone = _ring.SenderGone && !_follow;
            int count = _ring.Take(buffer.Span, out long missing);
            if (count > 0)
            {
                Came();
                _begun = true;
                return new SamplesRead(count, missing);
            }

            if (gone || (_running.IsCompleted && _begun))
            {
                return default;
            }

            Silent();
            await _ring.WaitAsync(Look, stop);
        }
    }

    private void Came()
    {
        // A pause that ended by itself was a burst of this sender: the next of its length is no stall.
        TimeSpan pause = _begun ? _time.GetElapsedTime(_cameAt) : TimeSpan.Zero;
        _pause = pause > _pause && pause <= LongestBurst ? pause : _pause;
        _cameAt = _time.GetTimestamp();
        if (_silent)
        {
            _silent = false;
            _watcher.Comes(_port.Where);
        }
    }

    /// <summary>A sender that is gone was told by the port; one that is there and stalls is told here.</summary>
    private void Silent()
    {
        if (_ring.SenderGone)
        {
            _cameAt = _time.GetTimestamp();
        }
        else if (_begun && _follow && !_silent && _time.GetElapsedTime(_cameAt) > Patience + _pause)
        {
            _silent = true;
            _watcher.Gone($"{_port.Where} is connected, but no samples come: does the sender still run?");
        }
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        await _stop.CancelAsync();
        _ring.GiveUp();
        try
        {
            await _running;
        }
        catch (OperationCanceledException)
        {
            // It was told to stop.
        }

        _port.Dispose();
        _ring.Dispose();
        _stop.Dispose();
    }

    private async Task RunAsync()
    {
        IPortListener listener = _toSkip > 0 ? new Skipping(_ring, _toSkip) : _ring;
        await _port.RunAsync(listener, _stop.Token);
    }

    /// <summary>Leaves out the first bytes of every connection.</summary>
    private sealed class Skipping : IPortListener
    {
        private readonly IPortListener _ring;
        private readonly long _bytes;
        private long _left;

        public Skipping(IPortListener ring, long bytes)
        {
            _ring = ring;
            _bytes = bytes;
            _left = bytes;
        }

        public void Connected(string where, bool startsInside = false)
        {
            _left = _bytes;
            _ring.Connected(where, startsInside);
        }

        public void Lost(string reason) => _ring.Lost(reason);

        public void Received(ReadOnlySpan<byte> received, bool wholeRecords = false)
        {
            int skipped = (int)Math.Min(_left, received.Length);
            _left -= skipped;
            if (received.Length > skipped)
            {
                _ring.Received(received[skipped..], wholeRecords);
            }
        }
    }
}
