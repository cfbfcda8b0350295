namespace Cockpit.Core.Dsp.SplitPhase;

/// <summary>Frame lock of the split-phase service, 665.4 kb/s.</summary>
public sealed class SplitPhaseLock : IFrameLock
{
    // Farther than this from what the meter sees, an unlocked carrier loop has lost its way.
    private const double LostHz = 100;

    private readonly BitReceiver _bits;
    private readonly Flywheel _frames = new();
    private bool _receiving;

    /// <summary>Prepares the lock.</summary>
    /// <param name="sampleRate">Samples a second; at least twice the bit rate.</param>
    public SplitPhaseLock(double sampleRate)
    {
        if (!Fits(sampleRate))
        {
            throw new ArgumentOutOfRangeException(nameof(sampleRate), sampleRate, "at least twice the bit rate is needed");
        }

        _bits = new BitReceiver(sampleRate);
    }

    /// <inheritdoc/>
    public SignalKind Kind => SignalKind.SplitPhase;

    /// <inheritdoc/>
    public bool Locked => _frames.Framed;

    /// <inheritdoc/>
    public bool Holding => _frames.Turning;

    /// <inheritdoc/>
    public double? OffsetHz => Locked ? _bits.CarrierHz : null;

    /// <summary>Whether a sample rate is high enough.</summary>
    public static bool Fits(double sampleRate) => sampleRate >= 2 * SpectrumTemplate.SplitPhaseRate;

    /// <inheritdoc/>
    public void Take(in ComplexBlock block, in LockHint hint, IFrameSink sink)
    {
        _frames.Tell(sink);
        if (hint.Kind == SignalKind.SplitPhase && hint.OffsetHz is { } carrier)
        {
            Receive(block, carrier);
        }
        else
        {
            _receiving = false;
            _frames.PassTo(block.FirstSample + block.Length);
        }

        _frames.TellNobody();
    }

    /// <inheritdoc/>
    public void Reset()
    {
        _receiving = false;
        _bits.Reset();
        _frames.Reset();
    }

    private void Receive(in ComplexBlock block, double carrier)
    {
        if (!_receiving)
        {
            _receiving = true;
            _frames.Break();
            _bits.Tune(carrier);
            if (_frames is { Turning: true, LastSyncStart: { } start })
            {
                double since = (block.FirstSample - start) / _frames.LastBitSamples;
                _bits.SetClock((Math.Ceiling(since) - since) * _frames.LastBitSamples, _frames.LastBitSamples);
            }
            else
            {
                _bits.Reset();
            }
        }
        else if (!Locked && Math.Abs(_bits.CarrierHz - carrier) > LostHz)
        {
            _bits.Tune(carrier);
        }
        else
        {
            _bits.Retune();
        }

        _bits.Take(block, _frames);
    }
}
