using Cockpit.Core.Chance;
using Cockpit.Core.Signal;
using Cockpit.Session.Events;

namespace Cockpit.Tests.Cues;

/// <summary>A search in which each level is noisy; level and trend are made as the radio side makes them: mean of 0.5 s, slope over 2 s.</summary>
internal sealed class NoisySearch
{
    private readonly Xoshiro256 _chance;
    private readonly double _sigmaDb;
    private readonly int _stepsPerValue;
    private readonly List<(double At, double Db)> _values = [];

    public NoisySearch(ulong seed, double sigmaDb, int ratePerSecond)
    {
        _chance = new Xoshiro256(seed);
        _sigmaDb = sigmaDb;
        _stepsPerValue = 10 / ratePerSecond;
        Stage = new PassStage(100);
        Stage.Aim(a => a with { PeakAsked = true });
        Stage.Link(l => l with { ExpectedDb = 10.0, MeasuredDb = null, TrendDbPerSec = null });
    }

    public PassStage Stage { get; }

    /// <param name="seconds">How long.</param>
    /// <param name="levelDb">Level re what is expected at a time from the start of this stretch, dB.</param>
    public void Run(double seconds, Func<double, double> levelDb)
    {
        double start = Stage.Now;
        int step = 0;
        Stage.Run(seconds, stage =>
        {
            if (step++ % _stepsPerValue != 0) { return; }

            double db = 10.0 + levelDb(stage.Now - start) + (_sigmaDb * _chance.NextNormal());
            _values.Add((stage.Now, db));
            _values.RemoveAll(v => v.At < stage.Now - 2.0001);
            stage.Link(l => l with { MeasuredDb = _values.Where(v => v.At > stage.Now - 0.5).Average(v => v.Db), TrendDbPerSec = Slope() });
            stage.Happen(new SignalMeasured("signal", new SignalSample { SnrDb = db }));
        });
    }

    private double? Slope()
    {
        if (_values.Count < 3) { return null; }

        double time = _values.Average(v => v.At);
        double level = _values.Average(v => v.Db);
        return _values.Sum(v => (v.At - time) * (v.Db - level)) / _values.Sum(v => (v.At - time) * (v.At - time));
    }
}
