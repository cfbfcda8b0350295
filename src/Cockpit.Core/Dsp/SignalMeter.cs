using System.Collections.Immutable;

namespace Cockpit.Core.Dsp;

/// <summary>Takes what the meter finds.</summary>
public interface IMeterSink : IFrameSink
{
    /// <summary>A window of 100 ms was measured.</summary>
    void Window(in MeterReading reading);
}

/// <summary>Measures a stream of samples, a window of 100 ms at a time, and drives the frame locks.</summary>
/// <remarks>Allocates when it is made, and never afterwards. Not for several threads at once.</remarks>
public sealed class SignalMeter : IFrameSink
{
    /// <summary>Windows a second.</summary>
    public const int WindowsPerSecond = 10;

    private const double MisleadHz = 500;

    private readonly SampleFormat _format;
    private readonly bool _exchanged;
    private readonly ImmutableArray<IFrameLock> _locks;
    private readonly SignalFinder _finder;
    private readonly WarningWatch _watch = new();
    private readonly float[] _i;
    private readonly float[] _q;
    private readonly byte[] _torn;
    private IMeterSink? _sink;
    private int _tornLength;
    private long _window;
    private long _origin;
    private int _filled;
    private long _received;
    private long _lost;
    private LockHint _hint;

    /// <summary>Prepares everything for a stream.</summary>
    /// <param name="sampleRate">Samples a second; 100 000 to 40 million.</param>
    /// <param name="format">How they stand in the bytes.</param>
    /// <param name="locks">Frame locks, made for this sample rate; may be none.</param>
    /// <param name="exchanged">Quadrature comes first.</param>
    public SignalMeter(double sampleRate, SampleFormat format, ImmutableArray<IFrameLock> locks, bool exchanged = false)
    {
        if (sampleRate is not (>= 100_000 and <= 40_000_000))
        {
            throw new ArgumentOutOfRangeException(nameof(sampleRate), sampleRate, "from 100 000 to 40 000 000 samples a second");
        }

        SampleRate = sampleRate;
        _format = format;
        _locks = locks;
        _exchanged = exchanged;
        int longest = (int)Math.Ceiling(sampleRate / WindowsPerSecond) + 1;
        _i = new float[longest];
        _q = new float[longest];
        _torn = new byte[format.BytesPerSample()];
        _finder = new SignalFinder(sampleRate, longest);
    }

    /// <summary>Samples a second.</summary>
    public double SampleRate { get; }

    /// <summary>Frames received since the first sample.</summary>
    public long LinesReceived => _received;

    /// <summary>Frames lost since the first lock.</summary>
    public long LinesLost => _lost;

    /// <summary>The spectrum of the last window.</summary>
    public CoarseSpectrum Spectrum => _finder.Spectrum;

    private long WindowStart => _origin + (long)Math.Round(_window * SampleRate / WindowsPerSecond);

    private int WindowLength => (int)(_origin + (long)Math.Round((_window + 1) * SampleRate / WindowsPerSecond) - WindowStart);

    /// <summary>Takes the next bytes; they may end within a sample.</summary>
    /// <param name="bytes">The bytes.</param>
    /// <param name="sink">Told of every window and frame.</param>
    public void Take(ReadOnlySpan<byte> bytes, IMeterSink sink)
    {
        int size = _torn.Length;
        if (_tornLength > 0)
        {
            int missing = Math.Min(size - _tornLength, bytes.Length);
            bytes[..missing].CopyTo(_torn.AsSpan(_tornLength));
            _tornLength += missing;
            bytes = bytes[missing..];
            if (_tornLength < size)
            {
                return;
            }

            _tornLength = 0;
            TakeWhole(_torn, sink);
        }

        int whole = bytes.Length - (bytes.Length % size);
        TakeWhole(bytes[..whole], sink);
        bytes[whole..].CopyTo(_torn);
        _tornLength = bytes.Length - whole;
    }

    /// <summary>Nothing more comes: the locks get what is left of a window, and tell the frames that they still hold.</summary>
    /// <param name="sink">Told of these frames.</param>
    public void Finish(IMeterSink sink)
    {
        _sink = sink;
        ComplexBlock rest = new(WindowStart, _i.AsSpan(0, _filled), _q.AsSpan(0, _filled));
        foreach (IFrameLock frames in _locks)
        {
            if (frames.Holding || (_hint.Kind == frames.Kind && _filled > 0))
            {
                frames.Take(rest, _hint, this);
            }
        }

        _origin = WindowStart + _filled;
        _window = 0;
        _filled = 0;
    }

    /// <summary>Samples are missing here: the window begun is thrown away, and the locks start anew.</summary>
    /// <param name="samples">How many are missing.</param>
    public void Skip(long samples)
    {
        _origin = WindowStart + _filled + samples;
        _window = 0;
        _filled = 0;
        _tornLength = 0;
        _finder.Reset();
        _watch.Reset();
        foreach (IFrameLock frames in _locks)
        {
            frames.Reset();
        }
    }

    /// <inheritdoc/>
    void IFrameSink.Frame(FrameEvent frame)
    {
        _received += frame.Received ? 1 : 0;
        _lost += frame.Received ? 0 : 1;
        _sink?.Frame(frame);
    }

    /// <inheritdoc/>
    void IFrameSink.Bits(ReadOnlySpan<byte> bits) => _sink?.Bits(bits);

    private void TakeWhole(ReadOnlySpan<byte> bytes, IMeterSink sink)
    {
        int size = _torn.Length;
        while (bytes.Length > 0)
        {
            int count = Math.Min(bytes.Length / size, WindowLength - _filled);
            (float[] first, float[] second) = _exchanged ? (_q, _i) : (_i, _q);
            SampleConverter.Convert(_format, bytes, first.AsSpan(_filled, count), second.AsSpan(_filled, count));
            bytes = bytes[(count * size)..];
            _filled += count;
            if (_filled == WindowLength)
            {
                Measure(sink);
                _window++;
                _filled = 0;
            }
        }
    }

    private void Measure(IMeterSink sink)
    {
        _sink = sink;
        ComplexBlock block = new(WindowStart, _i.AsSpan(0, _filled), _q.AsSpan(0, _filled));
        BlockStatistics statistics = BlockStatistics.Of(block, _format);
        Sighting sighting = statistics.Power > 0 ? _finder.Look(block, statistics) : default;
        double? snr = sighting.SnrDb(SampleRate);
        _hint = new LockHint(sighting.Kind, sighting.OffsetHz, sighting.SymbolRate, snr);
        bool locked = false;
        double? offset = sighting.OffsetHz;
        foreach (IFrameLock frames in _locks)
        {
            bool before = frames.Locked;
            if (statistics.Power <= 0)
            {
                // Not even noise: the samples are missing, and a decoder would find zeros in good order.
                frames.Reset();
            }
            else if (frames.Holding || sighting.Kind == frames.Kind)
            {
                frames.Take(block, _hint, this);
            }

            locked |= before && frames.Locked;
            offset = frames.Kind == sighting.Kind ? Believed(offset, frames.OffsetHz) : offset;
        }

        sink.Window(new MeterReading(
            block.FirstSample,
            block.Length,
            statistics.LevelDbfs,
            sighting.Noise > 0 ? 10 * Math.Log10(sighting.Noise) : null,
            snr,
            sighting.CarrierToNoiseDbHz(SampleRate),
            offset,
            statistics.ClipShare,
            statistics.DcPower > 0 ? 10 * Math.Log10(statistics.DcPower) : null,
            sighting.Kind,
            sighting.Confidence,
            sighting.SymbolRate,
            locked,
            _received,
            _lost,
            _watch.Next(statistics, _format, sighting.Noise)));
    }

    // A neighbour in the band can mislead the spectrum, but no lock; else the spectrum is as good, and its value that of the middle of the window.
    private static double? Believed(double? seen, double? locked) =>
        locked is { } hz && (seen is not { } other || Math.Abs(hz - other) > MisleadHz) ? hz : seen;
}
