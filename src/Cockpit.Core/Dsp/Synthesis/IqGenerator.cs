using System.Collections.Immutable;
using Cockpit.Core.Chance;

namespace Cockpit.Core.Dsp.Synthesis;

/// <summary>Makes the samples of a scenario, block by block, and knows what is true of them.</summary>
/// <remarks>
/// Noise has power 1 in the whole band, then everything is scaled. The received symbol clock and the carrier follow from one Doppler profile
/// and the clock error: a clock e fast shows a carrier f as (f - e centre) / (1 + e) and a rate R as R / (1 + e).
/// </remarks>
public sealed class IqGenerator
{
    private const int ProfileStep = 64;
    private const double EdgeSeconds = 0.001;

    private readonly IqScenario _scenario;
    private readonly ISymbols? _symbols;
    private readonly NormalNoise _noise;
    private readonly ImmutableArray<InterfererSource> _interferers;
    private readonly List<TrueWindow> _windows = [];
    private readonly double _dc;
    private readonly double _scale;
    private long _sample;
    private double _symbolPhase;
    private double _turns;
    private double _amplitude;
    private double _offsetHz;
    private double _symbolStep;
    private WindowSums _sums;

    /// <summary>Prepares a scenario.</summary>
    public IqGenerator(IqScenario scenario)
    {
        _scenario = scenario;
        _noise = new NormalNoise(new Xoshiro256(scenario.Seed, 2));
        Xoshiro256 bits = new(scenario.Seed, 1);
        _symbolPhase = bits.NextUnit();
        _turns = bits.NextUnit();
        _symbols = scenario.Kind switch
        {
            SignalKind.SplitPhase => new SplitPhaseSymbols(scenario, bits),
            SignalKind.Qpsk => new QpskSymbols(scenario.Qpsk, bits),
            SignalKind.Carrier => new BareCarrier(),
            _ => null,
        };
        _interferers = [.. scenario.Interferers.Select((it, k) => new InterfererSource(it, scenario.SampleRate, new Xoshiro256(scenario.Seed, 3 + (ulong)k)))];
        _dc = scenario.DcDb is { } db ? Math.Sqrt(0.5 * Math.Pow(10, db / 10)) : 0;
        double loudest = _symbols is null ? 0 : scenario.SnrDb.Max(p => PowerOf(p.Value));
        double others = scenario.Interferers.Sum(it => InterfererSource.PowerOf(it, scenario.SampleRate)) + (2 * _dc * _dc);
        _scale = scenario.Rms / Math.Sqrt((1 + loudest + others) / 2);
    }

    /// <summary>Nominal symbols a second; of what has none, the bits of the split-phase service.</summary>
    public double SymbolRate => _scenario.Kind == SignalKind.Qpsk ? _scenario.QpskRate : SpectrumTemplate.SplitPhaseRate;

    /// <summary>Power of the noise in the whole band, full scale 1 for each component.</summary>
    public double NoisePower => _scale * _scale;

    /// <summary>Samples in all.</summary>
    public long TotalSamples => (long)Math.Round(_scenario.Seconds * _scenario.SampleRate);

    /// <summary>What is true of what was made so far.</summary>
    public IqTruth Truth => new([.. _windows], _symbols?.Frames ?? []);

    private long WindowStart => (long)Math.Round(_windows.Count * _scenario.SampleRate / SignalMeter.WindowsPerSecond);

    private long WindowEnd => (long)Math.Round((_windows.Count + 1) * _scenario.SampleRate / SignalMeter.WindowsPerSecond);

    /// <summary>Makes the next samples.</summary>
    /// <param name="i">In-phase, written.</param>
    /// <param name="q">Quadrature, written; as long as <paramref name="i"/>.</param>
    /// <returns>How many were made; fewer than wanted only at the end.</returns>
    public int Next(Span<float> i, Span<float> q)
    {
        int count = (int)Math.Min(i.Length, TotalSamples - _sample);
        for (int k = 0; k < count; k++)
        {
            if (_sample % ProfileStep == 0)
            {
                Follow();
            }

            float re = _noise.Next() * 0.70710678f, im = _noise.Next() * 0.70710678f;
            if (_symbols is not null)
            {
                AddSignal(ref re, ref im);
            }

            foreach (InterfererSource interferer in _interferers)
            {
                interferer.Add(ref re, ref im);
            }

            i[k] = (float)(_scale * (re + _dc));
            q[k] = (float)(_scale * (im + _dc));
            _sample++;
            Count();
        }

        return count;
    }

    private double PowerOf(double snrDb) => Math.Pow(10, snrDb / 10) * SymbolRate / _scenario.SampleRate;

    private void AddSignal(ref float re, ref float im)
    {
        _symbolPhase += _symbolStep;
        while (_symbolPhase >= 1)
        {
            _symbolPhase -= 1;
            _symbols!.Advance(_sample - (_symbolPhase / _symbolStep), 1 / _symbolStep, _amplitude > 0 ? 10 * Math.Log10(_amplitude * _amplitude / PowerOf(0)) : null);
        }

        (float a, float b) = _symbols!.At(_symbolPhase);
        (double sin, double cos) = Math.SinCos(Math.Tau * _turns);
        re += (float)(_amplitude * ((a * cos) - (b * sin)));
        im += (float)(_amplitude * ((a * sin) + (b * cos)));
        _turns += _offsetHz / _scenario.SampleRate;
        _turns -= Math.Floor(_turns);
    }

    private void Follow()
    {
        double t = _sample / _scenario.SampleRate;
        double fading = 0.5 * _scenario.FadingDb * (Math.Cos(Math.Tau * _scenario.FadingHz * t) - 1);
        double snr = IqScenario.At(_scenario.SnrDb, t) + fading;
        _amplitude = _symbols is null ? 0 : Math.Sqrt(PowerOf(snr)) * PresentAt(t);
        double doppler = IqScenario.At(_scenario.DopplerHz, t), clock = 1e-6 * _scenario.ClockPpm;
        _offsetHz = (doppler - (clock * _scenario.CentreHz)) / (1 + clock);
        double rate = SymbolRate * (_symbols?.SymbolsPerBit ?? 1) * (1 + (doppler / _scenario.CentreHz)) / (1 + clock);
        _symbolStep = rate / _scenario.SampleRate;
    }

    // Edges of a dropout are cosine-shaped and lie inside it.
    private double PresentAt(double t)
    {
        double present = 1;
        foreach (Dropout gap in _scenario.Dropouts)
        {
            double inside = Math.Min(t - gap.From, gap.To - t);
            present *= inside <= 0 ? 1 : inside >= EdgeSeconds ? 0 : 0.5 * (1 + Math.Cos(Math.PI * inside / EdgeSeconds));
        }

        return present;
    }

    private void Count()
    {
        _sums.Power += _amplitude * _amplitude;
        _sums.Offset += _offsetHz;
        _sums.Samples++;
        _sums.Away += _amplitude <= 0 ? 1 : 0;
        if (_sample < WindowEnd)
        {
            return;
        }

        double power = _sums.Power / _sums.Samples;
        bool present = power > 0;
        double cn0 = present ? 10 * Math.Log10(power * _scenario.SampleRate) : 0;
        bool symbols = present && _scenario.Kind is SignalKind.SplitPhase or SignalKind.Qpsk;
        _windows.Add(new TrueWindow(
            WindowStart,
            present ? _scenario.Kind : SignalKind.None,
            present && _sums.Away > 0,
            symbols && present ? cn0 - (10 * Math.Log10(SymbolRate)) : null,
            present ? cn0 : null,
            present ? _sums.Offset / _sums.Samples : null));
        _sums = default;
    }

    private struct WindowSums
    {
        public double Power;
        public double Offset;
        public long Samples;
        public long Away;
    }
}
