namespace Cockpit.Core.Dsp.Qpsk;

/// <summary>Passes frames on, and counts those that must have been sent between and after them as lost.</summary>
/// <remarks>Counting ends half a minute after the last frame that was seen: whoever is away that long is not fading.</remarks>
internal sealed class LostFrames : IFrameSink
{
    private const double LongestSeconds = 30.0;

    private readonly double _mostSamples;
    private IFrameSink? _sink;
    private double _period;
    private double _last;
    private double _seen;

    /// <summary>Nothing seen yet.</summary>
    /// <param name="sampleRate">Samples per second.</param>
    public LostFrames(double sampleRate) => _mostSamples = LongestSeconds * sampleRate;

    /// <summary>Whether frames are counted, seen or not.</summary>
    public bool Counting { get; private set; }

    /// <summary>Who is told from now on.</summary>
    /// <param name="sink">Told; null: nobody.</param>
    public void Tell(IFrameSink? sink) => _sink = sink;

    /// <summary>Forgets everything.</summary>
    public void Reset() => Counting = false;

    /// <summary>Sets the length of a frame.</summary>
    /// <param name="samples">Samples from frame to frame.</param>
    public void SetPeriod(double samples) => _period = samples;

    /// <inheritdoc/>
    public void Frame(FrameEvent frame)
    {
        LoseUntil(frame.StartSample - (_period / 2.0));
        _sink?.Frame(frame);
        _last = frame.StartSample;
        _seen = _last;
        Counting = true;
    }

    /// <inheritdoc/>
    public void Bits(ReadOnlySpan<byte> bits) => _sink?.Bits(bits);

    /// <summary>Time passes without a lock: what has ended until then is lost.</summary>
    /// <param name="sample">Until when.</param>
    public void PassTo(double sample) => LoseUntil(sample - _period);

    private void LoseUntil(double start)
    {
        while (Counting && _last + _period <= start)
        {
            _last += _period;
            Counting = _last - _seen < _mostSamples;
            _sink?.Frame(new FrameEvent(_last, Received: false, -1));
        }
    }
}
