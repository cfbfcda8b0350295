namespace Cockpit.Core.Dsp.Qpsk;

/// <summary>Decodes what the tracker follows, so that a frame counts as received only when it can be decoded.</summary>
/// <remarks>Frames are told in order when they are decided, at most 8 ms after their last symbol. Allocates when it is made, never for a block.</remarks>
internal sealed class FrameDecoder : IDecodedSink
{
    private const int Waiting = 16;
    private const double QuartersPerTurn = 4.0;

    private readonly CarrierPhase _phase = new();
    private readonly SoftBits _soft = new();
    private readonly FrameBits _bits;
    private readonly TrackedFrame[] _frames = new TrackedFrame[Waiting];
    private readonly double[] _starts = new double[Waiting];
    private MarkerVariant _variant;
    private IFrameSink? _sink;
    private long _queued;
    private long _told;
    private long _turned;
    private long _next;
    private double _quarters;

    /// <summary>A decoder at rest.</summary>
    public FrameDecoder() => _bits = new FrameBits(this);

    /// <summary>Whether it runs; frames are queued then.</summary>
    public bool Active { get; private set; }

    /// <summary>Forgets everything; what waits is not told.</summary>
    public void Reset()
    {
        Active = false;
        _phase.Clear();
    }

    /// <summary>Keeps the phase up, also while it does not run.</summary>
    /// <param name="block">The block that the tracker sees next.</param>
    public void Watch(in SymbolBlock block) => _phase.Take(block);

    /// <summary>Starts with a frame that starts a cycle.</summary>
    /// <param name="variant">What is sent.</param>
    /// <param name="frame">Its first frame.</param>
    public void Start(MarkerVariant variant, TrackedFrame frame)
    {
        _variant = variant;
        _soft.Start(variant);
        _bits.Start(variant.Sent.Differential);
        _queued = _told = _turned = 0;
        _next = frame.Symbol;
        Active = true;
    }

    /// <summary>Queues the next frame of the tracker.</summary>
    /// <param name="frame">The frame.</param>
    /// <param name="startSample">Where it starts.</param>
    public void Queue(TrackedFrame frame, double startSample)
    {
        (_frames[_queued % Waiting], _starts[_queued % Waiting]) = (frame, startSample);
        _queued++;
    }

    /// <summary>Stops; what waits is told by its marker when the decoder was switched off, as lost when the lock went.</summary>
    /// <param name="sink">Told.</param>
    /// <param name="byMarker">Whether a marker is enough.</param>
    public void Stop(IFrameSink sink, bool byMarker)
    {
        for (; Active && _told < _queued; _told++)
        {
            TrackedFrame frame = _frames[_told % Waiting];
            sink.Frame(new FrameEvent(_starts[_told % Waiting], byMarker && frame.Found, frame.WrongBits));
        }

        Active = false;
    }

    /// <summary>Decodes what a block holds.</summary>
    /// <param name="block">The block; its frames are queued.</param>
    /// <param name="limit">The first symbol that must wait: its marker was not seen yet.</param>
    /// <param name="sink">Told of decided frames.</param>
    public void Decode(in SymbolBlock block, long limit, IFrameSink sink)
    {
        _sink = sink;
        limit = Math.Min(limit, block.First + SymbolBlock.Length);
        while (_next < limit)
        {
            if (_turned < _queued && _frames[_turned % Waiting].Symbol <= _next)
            {
                TurnTo(_frames[_turned % Waiting], block);
                _turned++;
            }

            long until = _turned < _queued ? Math.Min(limit, _frames[_turned % Waiting].Symbol) : limit;
            Piece(block, (int)(_next - block.Start), (int)(until - block.Start));
        }

        _sink = null;
    }

    /// <inheritdoc/>
    void IDecodedSink.Decoded(bool good, ReadOnlySpan<byte> octets)
    {
        if (_told >= _queued)
        {
            return;
        }

        _sink?.Frame(new FrameEvent(_starts[_told % Waiting], good, _frames[_told % Waiting].WrongBits));
        if (good)
        {
            _sink?.Bits(octets);
        }

        _told++;
    }

    // The marker tells which of the four quarters it is; a marker that was not found says nothing.
    private void TurnTo(TrackedFrame frame, in SymbolBlock block)
    {
        if (!frame.Found)
        {
            return;
        }

        double quarters = Math.Round((frame.Turns * QuartersPerTurn) - (Arriving(block, (int)(frame.Symbol - block.Start)) / (Math.PI / 2.0)));

        // With NRZ-M a marker may be sent the other way round; half a turn between two frames is no slip of the carrier then.
        double change = _variant.Sent.Differential ? Math.IEEERemainder(quarters - _quarters, 2.0) : quarters - _quarters;
        _quarters += change;
    }

    // The phase after the mirror has been undone.
    private double Arriving(in SymbolBlock block, int index) => (_variant.Mirrored ? -1.0 : 1.0) * _phase.At(Math.Clamp(index, 0, block.I.Length - 1));

    private void Piece(in SymbolBlock block, int from, int until)
    {
        int inPart = from < SymbolBlock.Margin ? SymbolBlock.Margin - from : CarrierPhase.Part - ((from - SymbolBlock.Margin) % CarrierPhase.Part);
        int count = Math.Min(until - from, inPart);
        double phase = Arriving(block, from) + (_quarters * (Math.PI / 2.0));
        _soft.Take(block.I.Slice(from, count), block.Q.Slice(from, count), phase, block.Power, _bits);
        _next += count;
    }
}
