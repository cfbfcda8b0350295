namespace Cockpit.Core.Dsp.Qpsk;

/// <summary>Takes what becomes of the samples: one block of symbols after another.</summary>
internal interface ISymbolSink
{
    /// <summary>The next 4096 symbols.</summary>
    void Take(in SymbolBlock block);
}

/// <summary>Samples to symbols: shift, matched filter, symbol clock. The carrier's phase stays as it is.</summary>
/// <remarks>Streaming; allocates when it is made and never for a block.</remarks>
internal sealed class SymbolReceiver
{
    private const int Hop = 4096;
    private readonly double _nominal;
    private readonly MatchedFilter _filter;
    private readonly FrequencyShift _shift;
    private readonly float[] _workI;
    private readonly float[] _workQ;
    private readonly float[] _halfI = new float[2 * SymbolClock.Stretch];
    private readonly float[] _halfQ = new float[2 * SymbolClock.Stretch];
    private readonly float[] _symbolI = new float[SymbolBlock.Margin + SymbolBlock.Length];
    private readonly float[] _symbolQ = new float[SymbolBlock.Margin + SymbolBlock.Length];
    private int _held;
    private int _halves;
    private int _symbols;
    private long _first;
    private long _stretches;
    private long _workStart;
    private double _next;

    /// <summary>A receiver of one symbol rate.</summary>
    /// <param name="sampleRate">Samples per second.</param>
    /// <param name="symbolRate">Symbols per second, nominal.</param>
    public SymbolReceiver(double sampleRate, double symbolRate)
    {
        _nominal = sampleRate / symbolRate;
        _filter = new MatchedFilter(_nominal);
        _shift = new FrequencyShift(sampleRate);
        int room = Hop + _filter.Length + (int)(4.0 * _nominal) + 16;
        _workI = new float[room];
        _workQ = new float[room];
    }

    /// <summary>The symbol clock.</summary>
    public SymbolClock Clock { get; } = new();

    /// <summary>Where the symbols lie in the recording.</summary>
    public SymbolTimes Times { get; } = new();

    /// <summary>The frequency that is moved to zero, hertz.</summary>
    public double Hertz
    {
        get => _shift.Hertz;
        set => _shift.Hertz = value;
    }

    /// <summary>Starts anew: the next block does not follow on the last one.</summary>
    public void Reset()
    {
        Clock.Reset();
        _held = _halves = _symbols = 0;
        _first = _stretches = 0;
        _next = 0.0;
    }

    /// <summary>Starts anew at a block, with the clock and the carrier as they are.</summary>
    /// <param name="firstSample">Number of the first sample to come.</param>
    /// <param name="middle">Sample of the middle of a symbol that is known, after that.</param>
    /// <param name="step">Samples from symbol to symbol.</param>
    /// <returns>The number that the known symbol will have.</returns>
    public long Seek(long firstSample, double middle, double step)
    {
        _held = _halves = _symbols = 0;
        _first = _stretches = 0;
        double room = middle - firstSample - _filter.Centre;
        long before = Math.Max(0, (long)(room / step));
        _next = Math.Max(0.0, room - (before * step));
        return before;
    }

    /// <summary>Takes the next samples.</summary>
    /// <param name="block">Following on the last ones.</param>
    /// <param name="sink">Told of each block of symbols.</param>
    public void Take(in ComplexBlock block, ISymbolSink sink)
    {
        for (int done = 0; done < block.Length;)
        {
            int part = Math.Min(Hop, block.Length - done);
            if (_held == 0)
            {
                _workStart = block.FirstSample + done;
            }

            ComplexBlock piece = block.Slice(done, part);
            _shift.Apply(piece.I, piece.Q, _workI.AsSpan(_held, part), _workQ.AsSpan(_held, part));
            _held += part;
            done += part;
            Filter(sink);
        }
    }

    // Values at twice the symbol rate as far as the samples reach.
    private void Filter(ISymbolSink sink)
    {
        while (true)
        {
            double step = _nominal / (1.0 + Clock.Rate) / 2.0;
            int reach = _held - _filter.Length - 1;
            int count = _next > reach ? 0 : (int)((reach - _next) / step) + 1;
            count = Math.Min(count, _halfI.Length - _halves);
            if (count == 0)
            {
                Shift();
                return;
            }

            if (_halves == 0)
            {
                Times.Note(_stretches, _workStart + _next + _filter.Centre, 2.0 * step);
            }

            _filter.Apply(
                _workI.AsSpan(0, _held), _workQ.AsSpan(0, _held), _next, step, _halfI.AsSpan(_halves, count), _halfQ.AsSpan(_halves, count));
            _next += step * count;
            _halves += count;
            if (_halves == _halfI.Length)
            {
                FinishStretch(sink, 2.0 * step);
            }
        }
    }

    private void FinishStretch(ISymbolSink sink, double step)
    {
        _halves = 0;
        _stretches++;
        for (int k = 0; k < SymbolClock.Stretch; k++)
        {
            int to = SymbolBlock.Margin + _symbols + k;
            (_symbolI[to], _symbolQ[to]) = (_halfI[2 * k], _halfQ[2 * k]);
        }

        _symbols += SymbolClock.Stretch;
        _next = Math.Max(0.0, _next - (Clock.Take(_halfI, _halfQ) * step));
        if (_symbols == SymbolBlock.Length)
        {
            Hand(sink);
        }
    }

    private void Hand(ISymbolSink sink)
    {
        double power = 0.0;
        for (int k = SymbolBlock.Margin; k < _symbolI.Length; k++)
        {
            power += (_symbolI[k] * _symbolI[k]) + (_symbolQ[k] * _symbolQ[k]);
        }

        sink.Take(new SymbolBlock(_first, _symbolI, _symbolQ, (float)(power / SymbolBlock.Length)));
        _symbolI.AsSpan(SymbolBlock.Length).CopyTo(_symbolI);
        _symbolQ.AsSpan(SymbolBlock.Length).CopyTo(_symbolQ);
        _first += SymbolBlock.Length;
        _symbols = 0;
    }

    // Keeps what the next value still needs, and half a symbol more for a step back of the clock.
    private void Shift()
    {
        int drop = Math.Clamp((int)(_next - _nominal) - 1, 0, _held);
        _workI.AsSpan(drop, _held - drop).CopyTo(_workI);
        _workQ.AsSpan(drop, _held - drop).CopyTo(_workQ);
        _held -= drop;
        _workStart += drop;
        _next -= drop;
    }
}
