using System.Diagnostics;
using System.Globalization;

namespace Cockpit.Benchmarks;

/// <summary>Figures in a few seconds, by processor time, so that a busy machine spoils them little.</summary>
internal static class Quick
{
    private const int Rounds = 9;

    internal static void Run(TextWriter output)
    {
        (string Name, int Operations, Action Work)[] all =
        [
            .. PropagationBenchmarks.Quick(), .. ElementReadingBenchmarks.Quick(), .. SoundBenchmarks.Quick(), .. FeedBenchmarks.Quick(), .. HoldPlanBenchmarks.Quick(), .. QpskBenchmarks.Quick(), .. EstimateBenchmarks.Quick(),
        ];
        foreach ((string name, int operations, Action work) in all)
        {
            output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{name,-44} {PerSecond(operations, work) / 1e6,9:0.0000} million/s on one core"));
        }
    }

    /// <summary>Operations a second of processor time: the median of the rounds after the code is warm.</summary>
    private static double PerSecond(int operations, Action work)
    {
        work();
        double[] rates = new double[Rounds];
        using var self = Process.GetCurrentProcess();
        for (int k = -3; k < Rounds; k++)
        {
            TimeSpan before = self.TotalProcessorTime;
            work();
            self.Refresh();
            rates[Math.Max(k, 0)] = operations / (self.TotalProcessorTime - before).TotalSeconds;
        }

        Array.Sort(rates);
        return rates[Rounds / 2];
    }
}
