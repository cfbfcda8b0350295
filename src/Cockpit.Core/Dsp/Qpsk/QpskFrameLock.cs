namespace Cockpit.Core.Dsp.Qpsk;

/// <summary>Finds and keeps the frames of coded QPSK at 2.3333 and 2.8 Msym/s, plain and punctured, at any sample rate that carries them.</summary>
/// <remarks>
/// The marker is looked for as the encoder sends it, so that the lock holds far below the level at which a decoder works. Variants that are
/// tried: code 1/2 and 3/4, both readings of the second generator, NRZ-L and NRZ-M, I and Q exchanged; four phases do not matter.
/// Streaming; allocates when it is made and never for a block.
/// </remarks>
public sealed class QpskFrameLock : IFrameLock
{
    // Below this the band cuts so much off the pulse that nothing is gained.
    private const double FewestSamplesPerSymbol = 1.2;

    private readonly QpskChain[] _chains;
    private QpskChain? _chain;
    private long _next = -1;
    private bool _decoding = true;

    /// <summary>A lock for recordings of one sample rate.</summary>
    /// <param name="sampleRate">Samples per second.</param>
    public QpskFrameLock(double sampleRate)
    {
        double[] rates = [SpectrumTemplate.QpskRate, SpectrumTemplate.FastQpskRate];
        _chains = [.. rates.Where(rate => sampleRate >= FewestSamplesPerSymbol * rate).Select(rate => new QpskChain(sampleRate, rate))];
    }

    /// <summary>Whether a sample rate has room for at least the slower service.</summary>
    /// <param name="sampleRate">Samples per second.</param>
    public static bool Fits(double sampleRate) => sampleRate >= FewestSamplesPerSymbol * SpectrumTemplate.QpskRate;

    /// <inheritdoc/>
    public SignalKind Kind => SignalKind.Qpsk;

    /// <inheritdoc/>
    public bool Locked => _chain is { Locked: true };

    /// <inheritdoc/>
    public bool Holding => _chain is { Locked: true } or { Counting: true };

    /// <inheritdoc/>
    public double? OffsetHz => Locked ? _chain?.Hertz : null;

    /// <summary>Whether a frame must be decodable (Viterbi, Reed-Solomon) to count as received; else its marker is enough, at a third of the work.</summary>
    public bool Decoding
    {
        get => _decoding;
        set
        {
            _decoding = value;
            foreach (QpskChain chain in _chains)
            {
                chain.Decoding = value;
            }
        }
    }

    /// <inheritdoc/>
    public void Take(in ComplexBlock block, in LockHint hint, IFrameSink sink)
    {
        Choose(hint.SymbolRate);
        if (block.FirstSample != _next)
        {
            _chain?.Reset();
        }

        _next = block.FirstSample + block.Length;
        _chain?.Take(block, hint.Kind == SignalKind.Qpsk ? hint.OffsetHz : null, sink);
    }

    /// <inheritdoc/>
    public void Reset()
    {
        _chain?.Reset();
        _next = -1;
    }

    // A lock outlasts a doubtful hint; without any hint of the rate the last one stays.
    private void Choose(double symbolRate)
    {
        if (Locked || symbolRate <= 0.0)
        {
            return;
        }

        QpskChain? wanted = null;
        foreach (QpskChain chain in _chains)
        {
            wanted = Math.Abs((chain.SymbolRate / symbolRate) - 1.0) < 0.05 ? chain : wanted;
        }

        if (wanted is not null && wanted != _chain)
        {
            wanted.Reset();
            _chain = wanted;
        }
    }
}
