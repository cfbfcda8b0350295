using System.Collections.Immutable;
using Cockpit.Core.Chance;
using Cockpit.Core.Dsp.Qpsk;

namespace Cockpit.Core.Dsp.Synthesis;

/// <summary>Coded QPSK with root raised cosine pulses: frames of seeded contents, begun somewhere within.</summary>
internal sealed class QpskSymbols : ISymbols
{
    private const int FirstNumber = 1000;

    private static readonly PulseTable Pulse = PulseTable.RootRaisedCosine();

    private readonly QpskSending _sending;
    private readonly QpskSymbolSource _source;
    private readonly SlidingSymbols _re = new(Pulse.Width);
    private readonly SlidingSymbols _im = new(Pulse.Width);
    private readonly List<TrueFrame> _frames = [];
    private long _now;
    private long _frame;
    private TrueFrame? _open;

    /// <param name="sending">How it is sent.</param>
    /// <param name="chance">Where chance comes from.</param>
    public QpskSymbols(QpskSending sending, Xoshiro256 chance)
    {
        _sending = sending;
        _source = new QpskSymbolSource(sending, chance);
        long begun = chance.NextBelow((int)QpskSymbolSource.StartOf(sending.Coding.Rate, 3));
        for (long k = 0; k < begun; k++)
        {
            _source.Next();
        }

        _now = begun - 1;
        while (QpskSymbolSource.StartOf(sending.Coding.Rate, _frame) < begun)
        {
            _frame++;
        }

        for (int k = 0; k < Pulse.Reach; k++)
        {
            Push();
        }
    }

    /// <inheritdoc/>
    public int SymbolsPerBit => 1;

    /// <inheritdoc/>
    public ImmutableArray<TrueFrame> Frames => [.. _frames];

    /// <inheritdoc/>
    public void Advance(double startSample, double samplesPerSymbol, double? snrDb)
    {
        Push();
        _now++;
        if (_now == QpskSymbolSource.StartOf(_sending.Coding.Rate, _frame))
        {
            if (_open is { } ended)
            {
                _frames.Add(ended with { EndSample = startSample });
            }

            _open = new TrueFrame(FirstNumber + _frame, startSample, 0, snrDb);
            _frame++;
        }

        if (_open is { } open)
        {
            _open = open with { LeastSnrDb = snrDb is { } db && open.LeastSnrDb is { } least ? Math.Min(db, least) : null };
        }
    }

    /// <inheritdoc/>
    public (float Re, float Im) At(double phase)
    {
        ReadOnlySpan<float> weights = Pulse.At(phase), re = _re.Last, im = _im.Last;
        float a = 0, b = 0;
        for (int k = 0; k < weights.Length; k++)
        {
            a += weights[k] * re[k];
            b += weights[k] * im[k];
        }

        return (a, b);
    }

    private void Push()
    {
        (float i, float q) = _source.Next();
        _re.Push(i);
        _im.Push(q);
    }
}
