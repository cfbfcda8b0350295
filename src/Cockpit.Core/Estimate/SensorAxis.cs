namespace Cockpit.Core.Estimate;

/// <summary>One axis of a sensor on the dish: samples to one steady reading for each block, and how noisy they are. Degrees, seconds.</summary>
/// <remarks>
/// While the dish stands the blocks are averaged further; a block that differs by more than the noise is a move, and counts alone. The noise is
/// read off the differences of samples that follow each other. An azimuth is told without turns: 361 follows 359. Allocates only when made.
/// </remarks>
/// <param name="turns">Whether 360 degrees are nothing, as of an azimuth.</param>
internal sealed class SensorAxis(bool turns)
{
    private const double UsualNoise = 0.5;
    private const double LeastNoise = 0.05;
    private const double NoiseShare = 0.02;
    private const double MostNoise = 3.0;
    private const double Standing = 3.0;
    private const double StandingShare = 0.3;
    private const double QuickShare = 0.3;
    private const double Moving = 5.0;

    private double _variance = UsualNoise * UsualNoise;
    private double _sum;
    private int _count;
    private double _last = double.NaN;
    private double _quick = double.NaN;
    private double _zero;

    /// <summary>When a sample last came.</summary>
    public double HeardAt { get; private set; } = double.NegativeInfinity;

    /// <summary>The steady reading after the last block; NaN before the first.</summary>
    public double Block { get; private set; } = double.NaN;

    /// <summary>The reading now: that of the block, or newer where the dish moves.</summary>
    public double Now => double.IsNaN(Block) ? _quick : Math.Abs(_quick - Block) < Standing * Noise ? Block : _quick;

    /// <summary>The last sample as it was told, but without turns; NaN before the first.</summary>
    public double Last => _last;

    /// <summary>The reading now as the sensor tells it, with its jumps.</summary>
    public double Told => Now + _zero;

    /// <summary>Whether this block brought any.</summary>
    public bool HasNew => _count > 0;

    private double Noise => Math.Max(LeastNoise, Math.Sqrt(_variance));

    /// <summary>How much a sample differs from the last.</summary>
    public double StepTo(double told) => double.IsNaN(_last) ? 0.0 : Near(told - _zero) - _last;

    /// <summary>The sensor's zero jumped, not the dish.</summary>
    public void Shift(double jump) => _zero += jump;

    /// <summary>Takes in a sample.</summary>
    public void Take(double seconds, double told)
    {
        double value = double.IsNaN(_last) ? told - _zero : Near(told - _zero);
        if (!double.IsNaN(_last))
        {
            double half = Math.Min(0.5 * (value - _last) * (value - _last), MostNoise * MostNoise);

            // A moving dish would look like noise: a large step counts for little.
            _variance += NoiseShare * (Math.Min(half, 6.0 * _variance + (LeastNoise * LeastNoise)) - _variance);
        }

        bool jumps = double.IsNaN(_quick) || Math.Abs(value - _quick) > Moving * Noise;
        _quick = jumps ? value : _quick + (QuickShare * (value - _quick));
        _last = value;
        _sum += value;
        _count++;
        HeardAt = seconds;
    }

    /// <summary>A block is over.</summary>
    /// <returns>How far the steady reading moved in it.</returns>
    public double Close()
    {
        if (_count == 0)
        {
            return 0.0;
        }

        double mean = _sum / _count;
        double before = Block;
        bool stands = !double.IsNaN(before) && Math.Abs(mean - before) < Standing * Noise * Math.Sqrt(1.3 / _count);
        Block = stands ? before + (StandingShare * (mean - before)) : mean;
        (_sum, _count) = (0.0, 0);
        return double.IsNaN(before) ? 0.0 : Block - before;
    }

    /// <summary>What came before says nothing about where the reading is: the last sample alone counts.</summary>
    public void Wake()
    {
        (Block, _quick) = (_last, _last);
        (_sum, _count) = (0.0, 0);
    }

    private double Near(double value) => turns ? value - (360.0 * Math.Round((value - _last) / 360.0)) : value;
}
