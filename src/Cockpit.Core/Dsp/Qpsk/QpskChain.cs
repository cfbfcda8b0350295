namespace Cockpit.Core.Dsp.Qpsk;

/// <summary>Everything for one symbol rate: symbols, carrier, marker, frames.</summary>
internal sealed class QpskChain : ISymbolSink
{
    // A hint is taken only when it says something else: the marker bears 20 kHz, and the spectrum alone is 5 to 15 wrong at low levels.
    private const double HintSlack = 10e3;
    private const double SmallHertz = 1e3;
    private const double TooFarForMarker = 15e3;
    private const int BlocksWithoutLine = 64;

    private readonly SymbolReceiver _receiver;
    private readonly CarrierLine _line;
    private readonly MarkerSearch _search = new();
    private readonly MarkerTracker _tracker = new();
    private readonly FrameDecoder _decoder = new();
    private static readonly IFrameSink Nobody = new NoSink();
    private readonly LostFrames _lost;
    private readonly double _samplesPerSymbol;
    private IFrameSink _frames = Nobody;
    private double? _hint;
    private int _sinceLine = BlocksWithoutLine;
    private bool _settling;

    /// <summary>A chain.</summary>
    /// <param name="sampleRate">Samples per second.</param>
    /// <param name="symbolRate">Symbols per second, nominal.</param>
    public QpskChain(double sampleRate, double symbolRate)
    {
        SymbolRate = symbolRate;
        _samplesPerSymbol = sampleRate / symbolRate;
        _lost = new LostFrames(sampleRate);
        _receiver = new SymbolReceiver(sampleRate, symbolRate);
        _line = new CarrierLine(symbolRate);
    }

    /// <summary>Symbols per second, nominal.</summary>
    public double SymbolRate { get; }

    /// <summary>Whether frames are followed.</summary>
    public bool Locked => _tracker.Locked;

    /// <summary>Whether frames are counted, locked or not.</summary>
    public bool Counting => _lost.Counting;

    /// <summary>What is followed, while locked.</summary>
    public MarkerVariant Variant => _tracker.Variant;

    /// <summary>The carrier, hertz from the centre of the recording; null while it was not seen for some time.</summary>
    public double? Hertz => _sinceLine < BlocksWithoutLine ? _receiver.Hertz : null;

    /// <summary>How much faster than nominal the symbols come, relative; null without a clock.</summary>
    public double? ClockRate => _receiver.Clock.Locked ? _receiver.Clock.Rate : null;

    /// <summary>Whether a frame must be decodable to count as received; else its marker is enough.</summary>
    public bool Decoding { get; set; } = true;

    /// <summary>Forgets everything.</summary>
    public void Reset()
    {
        _decoder.Reset();
        _lost.Reset();
        _receiver.Reset();
        _line.Clear();
        _search.Clear();
        _tracker.Reset();
        _sinceLine = BlocksWithoutLine;
    }

    /// <summary>Takes the next samples.</summary>
    /// <param name="block">Samples.</param>
    /// <param name="hintHertz">Where the meter sees the carrier.</param>
    /// <param name="sink">Told of frames.</param>
    public void Take(in ComplexBlock block, double? hintHertz, IFrameSink sink)
    {
        _hint = hintHertz;
        UseHint();
        bool searching = !_tracker.Locked;
        _frames = searching ? Nobody : _lost;
        _lost.Tell(sink);
        _receiver.Take(block, this);
        _frames = _lost;
        if (searching && _tracker.Locked)
        {
            TakeAgain(block);
        }

        if (!_tracker.Locked)
        {
            _lost.PassTo(block.FirstSample + block.Length);
        }

        _lost.Tell(null);
    }

    /// <inheritdoc/>
    public void Take(in SymbolBlock block)
    {
        FollowCarrier(block);
        if (!_tracker.Active && _receiver.Clock.Locked && CarrierSettled && _search.Take(block))
        {
            _tracker.Start(_search.Variant, _search.Position, block);
            return;
        }

        if (_tracker.Active)
        {
            Follow(block);
        }
    }

    // With a carrier that is far off a marker correlates best somewhere beside its place; so the carrier comes first, if it can be had.
    private bool CarrierSettled => _sinceLine < BlocksWithoutLine || _line.InVain;

    private void Follow(in SymbolBlock block)
    {
        _decoder.Watch(block);
        int slips = _tracker.Slips;
        while (_tracker.Next(block) is { } frame)
        {
            if (_tracker.Slips != slips || !_tracker.Locked || !Decoding)
            {
                _decoder.Stop(_frames, byMarker: _tracker.Locked);
                slips = _tracker.Slips;
            }

            if (_tracker.Locked)
            {
                Tell(frame);
            }
        }

        if (_decoder.Active)
        {
            _decoder.Decode(block, _tracker.NextSymbol, _frames);
        }
    }

    private void Tell(TrackedFrame frame)
    {
        _lost.SetPeriod(_samplesPerSymbol / (1.0 + _receiver.Clock.Rate) * MarkerTemplate.SymbolsPerFrame(_tracker.Variant.Sent.Rate));
        double start = _receiver.Times.StartOf(frame.Symbol);
        if (Decoding && !_decoder.Active && frame is { InCycle: 0, Found: true })
        {
            _decoder.Start(_tracker.Variant, frame);
        }

        if (_decoder.Active)
        {
            _decoder.Queue(frame, start);
            return;
        }

        // What came before the first frame that was seen was never sent.
        if (frame.Found || _lost.Counting)
        {
            _frames.Frame(new FrameEvent(start, frame.Found, frame.WrongBits));
        }
    }

    // A lock that was found within a block holds for all of it: the block is taken once more with everything known.
    private void TakeAgain(in ComplexBlock block)
    {
        double samples = _samplesPerSymbol / (1.0 + _receiver.Clock.Rate);
        double known = _receiver.Times.StartOf(_tracker.NextSymbol);
        long symbols = _receiver.Seek(block.FirstSample, known + (samples / 2.0), samples);
        _tracker.Resume(symbols);
        _decoder.Reset();
        _line.Clear();
        _receiver.Take(block, this);
    }

    private void UseHint()
    {
        if (_sinceLine >= BlocksWithoutLine && !_tracker.Locked && _hint is { } hertz && Math.Abs(hertz - _receiver.Hertz) > HintSlack)
        {
            MoveTo(hertz);
        }
    }

    private void FollowCarrier(in SymbolBlock block)
    {
        _sinceLine = Math.Min(_sinceLine + 1, BlocksWithoutLine);
        bool usable = _receiver.Clock.Locked && !_settling;
        _settling = false;
        if (!usable || !_line.Take(block))
        {
            return;
        }

        // While the carrier is known and frames come in, a line elsewhere is somebody else's.
        if (_tracker.Locked && _sinceLine < BlocksWithoutLine && Math.Abs(_line.Hertz) > SmallHertz)
        {
            return;
        }

        _sinceLine = 0;
        MoveTo(_receiver.Hertz + _line.Hertz);
    }

    private void MoveTo(double hertz)
    {
        bool far = Math.Abs(hertz - _receiver.Hertz) > SmallHertz;
        bool misled = Math.Abs(hertz - _receiver.Hertz) > TooFarForMarker;
        _receiver.Hertz = hertz;
        if (misled)
        {
            _tracker.Reset();
            _decoder.Stop(_frames, byMarker: false);
        }

        if (far)
        {
            _settling = true;
            _line.Clear();
            _search.Clear();
        }
    }

    private sealed class NoSink : IFrameSink
    {
        public void Frame(FrameEvent frame)
        {
            // Nobody asked.
        }

        public void Bits(ReadOnlySpan<byte> bits)
        {
            // Nobody asked.
        }
    }
}
