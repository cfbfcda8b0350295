using System.Collections.Immutable;
using Cockpit.Core.Chance;

namespace Cockpit.Core.Dsp.Synthesis;

/// <summary>The modulation of a signal: symbols, and the wave between them.</summary>
internal interface ISymbols
{
    /// <summary>Symbols of one bit or symbol of the rate.</summary>
    int SymbolsPerBit { get; }

    /// <summary>Frames that ended.</summary>
    ImmutableArray<TrueFrame> Frames { get; }

    /// <summary>The next symbol begins.</summary>
    /// <param name="startSample">Where it begins.</param>
    /// <param name="samplesPerSymbol">Its length.</param>
    /// <param name="snrDb">SNR there; null where there is no signal.</param>
    void Advance(double startSample, double samplesPerSymbol, double? snrDb);

    /// <summary>The wave, unit power.</summary>
    /// <param name="phase">Where in the present symbol, 0 to 1.</param>
    (float Re, float Im) At(double phase);
}

/// <summary>No modulation.</summary>
internal sealed class BareCarrier : ISymbols
{
    /// <inheritdoc/>
    public int SymbolsPerBit => 1;

    /// <inheritdoc/>
    public ImmutableArray<TrueFrame> Frames => [];

    /// <inheritdoc/>
    public void Advance(double startSample, double samplesPerSymbol, double? snrDb)
    {
        // A carrier has no symbols.
    }

    /// <inheritdoc/>
    public (float Re, float Im) At(double phase) => (1, 0);
}

/// <summary>Split-phase: each bit two halves, 1 = high, low; the carrier's phase swings by them.</summary>
internal sealed class SplitPhaseSymbols : ISymbols
{
    private readonly PulseTable _pulse;
    private readonly FrameSource _bits;
    private readonly SlidingSymbols _halves;
    private readonly List<TrueFrame> _frames = [];
    private readonly float _carrier;
    private readonly float _swing;
    private int _bit;
    private bool _second;
    private TrueFrame _open;
    private long _ahead;
    private readonly Queue<long> _starts = new();

    public SplitPhaseSymbols(IqScenario scenario, Xoshiro256 chance)
    {
        _pulse = PulseTable.Box(scenario.SampleRate / SpectrumTemplate.SplitPhaseRate / 2);
        _bits = new FrameSource(chance, scenario.Picture, 1000);
        _bits.SkipTo(chance.NextBelow(SplitPhase.MinorFrame.Bits));
        _halves = new SlidingSymbols(_pulse.Width);
        (double sin, double cos) = Math.SinCos(scenario.SwingDegrees * Math.PI / 180);
        _carrier = (float)cos;
        _swing = (float)(scenario.Inverted ? -sin : sin);
        for (int k = 0; k < _pulse.Reach; k++)
        {
            Push();
        }
    }

    /// <inheritdoc/>
    public int SymbolsPerBit => 2;

    /// <inheritdoc/>
    public ImmutableArray<TrueFrame> Frames => [.. _frames];

    /// <inheritdoc/>
    public void Advance(double startSample, double samplesPerSymbol, double? snrDb)
    {
        Push();

        // The half that begins now was pushed so many halves ago.
        long now = _ahead - 1 - _pulse.Reach;
        if (_starts.TryPeek(out long start) && start == now)
        {
            _starts.Dequeue();
            if (_open.Number > 0)
            {
                _frames.Add(_open with { EndSample = startSample });
            }

            _open = new TrueFrame(_open.Number > 0 ? _open.Number + 1 : _bits.Number, startSample, 0, snrDb ?? double.NegativeInfinity);
        }

        double least = Math.Min(_open.LeastSnrDb ?? double.NegativeInfinity, snrDb ?? double.NegativeInfinity);
        _open = _open with { LeastSnrDb = double.IsFinite(least) ? least : null };
    }

    /// <inheritdoc/>
    public (float Re, float Im) At(double phase)
    {
        ReadOnlySpan<float> weights = _pulse.At(phase), halves = _halves.Last;
        float sum = 0;
        for (int k = 0; k < weights.Length; k++)
        {
            sum += weights[k] * halves[k];
        }

        return (_carrier, _swing * sum);
    }

    private void Push()
    {
        if (!_second)
        {
            if (_bits.AtStart)
            {
                _starts.Enqueue(_ahead);
            }

            _bit = _bits.Next();
        }

        _halves.Push(_bit == 1 != _second ? 1f : -1f);
        _second = !_second;
        _ahead++;
    }
}

/// <summary>The last so many symbols, the oldest first, always in one piece of memory.</summary>
internal sealed class SlidingSymbols
{
    private readonly int _width;
    private readonly float[] _symbols;
    private int _end;

    /// <param name="width">How many.</param>
    public SlidingSymbols(int width)
    {
        _width = width;
        _symbols = new float[4096 + width];
        _end = width;
    }

    /// <summary>The last symbols.</summary>
    public ReadOnlySpan<float> Last => _symbols.AsSpan(_end - _width, _width);

    /// <summary>One more.</summary>
    public void Push(float symbol)
    {
        if (_end == _symbols.Length)
        {
            Array.Copy(_symbols, _end - _width, _symbols, 0, _width);
            _end = _width;
        }

        _symbols[_end++] = symbol;
    }
}
