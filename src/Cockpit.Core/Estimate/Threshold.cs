namespace Cockpit.Core.Estimate;

/// <summary>Where the threshold of the picture lies in readings, learned from lines that came or did not; dB from its nominal place.</summary>
internal sealed class Threshold
{
    private const double Lowest = -6.0;
    private const double StepDb = 0.25;
    private const double LineSd = 0.8;
    private readonly double[] _weight = new double[49];

    public double Mean { get; private set; }

    public double Sd { get; private set; }

    public void Reset()
    {
        for (int i = 0; i < _weight.Length; i++)
        {
            double at = (Lowest + (i * StepDb)) / LevelModel.ThresholdSd;
            _weight[i] = Math.Exp(-0.5 * at * at);
        }

        Settle();
    }

    /// <summary>Takes in a block of picture lines.</summary>
    /// <param name="level">Level of the block over the nominal threshold, dB.</param>
    /// <param name="goodShare">Share of its lines that came, 0..1.</param>
    public void Take(double level, double goodShare)
    {
        for (int i = 0; i < _weight.Length; i++)
        {
            double good = 0.02 + (0.96 * Normal.Below((level - (Lowest + (i * StepDb))) / LineSd));
            _weight[i] *= (goodShare * good) + ((1.0 - goodShare) * (1.0 - good));
        }

        Settle();
    }

    private void Settle()
    {
        double sum = 0.0;
        double first = 0.0;
        double second = 0.0;
        for (int i = 0; i < _weight.Length; i++)
        {
            double at = Lowest + (i * StepDb);
            sum += _weight[i];
            first += _weight[i] * at;
            second += _weight[i] * at * at;
        }

        for (int i = 0; i < _weight.Length; i++)
        {
            _weight[i] = Math.Max(_weight[i] / sum, 1e-12);
        }

        Mean = first / sum;
        Sd = Math.Sqrt(Math.Max(0.01, (second / sum) - (Mean * Mean)));
    }
}
